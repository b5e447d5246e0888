"""One form per stage of the job: Outline, Sheet, Standoffs, Holes."""
