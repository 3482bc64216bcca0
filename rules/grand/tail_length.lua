-- Tail length: what the backcheck has to catch.
return step {
  id = "tail_length", title = "Hammer tail length", stage = "survey", unit = "mm", scope = "sections",
  need = "optional",
  plain = "Measured once, before any work",
  ask = "Measure from the middle of the shank to the end of the tail.",
  why = "A tail too long scrapes its check, one too short is caught low or not at all.",
  target = range(24, 29, 27),
  resolution = 0.5, gauge = 0.5, even = 1, breaks = false,
  low_todo = "A short tail can't be made longer: set check height by it, or change the hammer.",
  high_todo = "Cut the tail to its neighbours' length, then arc and roughen it.",
  source = "list-2003-checks: 1 1/16 in; common-practice: the band",
}
