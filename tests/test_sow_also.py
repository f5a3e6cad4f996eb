"""What has no bed is raised till it is ready: where it goes then, and when it is picked, nobody has said."""

from __future__ import annotations

from datetime import date

from sowsheet.exports.tell import told_back
from sowsheet.jobs.make import jobs
from sowsheet.reading.mistakes import Mistake
from sowsheet.schedule.plan import schedule
from sowsheet.trays.plan import tray_plan
from tests import in_english
from tests.made import catalogue, garden, planned, sound

WANTED = ("20 lettuce planted mid-May",)


def test_what_is_wanted_by_a_day_is_sown_for_it_and_ready_by_then() -> None:
    (also,) = sound(also=WANTED)
    (in_bed,) = sound("lettuce planted mid-May")
    assert in_bed.stages.sow and also.stages.sow == in_bed.stages.sow
    assert also.stages.ready and also.stages.ready.day <= date(2027, 5, 15)
    assert also.stays[-1].end == also.stages.ready.day


def test_check_and_jobs_tell_the_same_of_it() -> None:
    mistakes: list[Mistake] = []
    made = garden(mistakes=mistakes, also=WANTED)
    dated, _ = schedule(made, catalogue().crop)
    told = " ".join(told_back(made, dated, ()))
    assert "you wrote `mid-May`" in told
    assert [word for word in ("planted", "picked", "cleared") if word in told] == []
    assert {job.verb for job in jobs(dated, tray_plan(dated, made), made)} == {"Sow", "Carry", "Harden"}


def test_what_is_drilled_has_to_have_a_bed_whatever_its_date() -> None:
    for line in ("20 carrots mid-May", "20 carrots planted mid-May"):
        _, (mistake,) = planned(also=(line,))
        assert "is not raised in trays" in in_english.what(mistake)
