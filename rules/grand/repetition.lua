-- Repetition: the spring, judged from the check. After checking and drop.
return step {
  id = "repetition", title = "Repetition", stage = "refine", kind = "judged", scope = "every",
  plain = "How quickly a note can be repeated",
  ask = "Catch the hammer with a medium blow and ease the key. " ..
    "The hammer rises slowly and steadily, with no kick in the key.",
  why = "As strong as can be without being felt: weaker loses notes, stronger kicks and plays twice.",
  faults = {
    { "no_rise", means = "stays down, or rises late", fix = { { "repetition_spring", "stronger" } } },
    { "jumps", means = "leaps up, or kicks the finger", fix = { { "repetition_spring", "weaker" } } },
    { "stops", means = "rises, then stops",
      todo = "Look for a tight centre, a rough spring slot, or a drop screw that is too low." },
  },
  source = "page-grand-parts: part XXIII; list-2006-spring",
}
