"""The season's work, a job at a time, from the edges of stays and covers."""
