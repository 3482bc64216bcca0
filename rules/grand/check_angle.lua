-- Check angle: the face of the backcheck against the key.
return step {
  id = "check_angle", title = "Check angle", stage = "refine", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Hold the hammer down lightly and press the key. " ..
    "The tail clears the check on its way up, and jams when driven down.",
  why = "A face that is too upright won't hold. One that leans too far scrapes.",
  faults = {
    { "upright", means = "hammer slides through", fix = { { "check_head", "lean toward the tail" } } },
    { "leaning", means = "scrapes the rising tail", fix = { { "check_head", "more upright" } } },
    { "twisted", means = "face is not square to the tail", todo = "Square the head on its wire." },
  },
  source = "list-2003-checks; college-2007-checks; articles-checking",
}
