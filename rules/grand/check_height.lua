-- Check height: the top of the backcheck against the hammer tail.
return step {
  id = "check_height", title = "Check height", stage = "refine", kind = "judged", scope = "every",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Press the key slowly to the drop. The check's top is level with the tail, or at most 1.6 mm below it.",
  why = "A high check scrapes the rising tail. A low one catches late or not at all.",
  faults = {
    { "high", means = "stands above the tail, or scrapes it", fix = { { "check_wire", "lower" } } },
    { "low", means = "too far below the tail", fix = { { "check_wire", "raise" } } },
  },
  source = "list-2003-checks; college-2007-checks",
}
