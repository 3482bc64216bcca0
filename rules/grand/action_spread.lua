-- Action spread: from the hammer centres to the whippen centres. It decides the whole geometry.
return step {
  id = "action_spread", title = "Action spread", stage = "survey", unit = "mm", scope = "sections", need = "optional",
  plain = "Measured once, before any work",
  ask = "Stack on the bench. Measure from hammer centre pin to whippen centre pin at each end of a section.",
  why = "A spread that differs along the stack tilts the jacks, and no screw cures it.",
  target = range(109, 115, 112),
  resolution = 0.5, gauge = 0.5, even = 0.5, breaks = false,
  low_todo = "Measure again. If it is so, look at the rails' screws and brackets before any regulating.",
  high_todo = "Measure again. If it is so, look at the rails' screws and brackets before any regulating.",
  method = "calliper, pin to pin",
  source = "articles-weighing: part 6, 112 mm usual, 109 to 115 seen",
}
