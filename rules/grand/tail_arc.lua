-- Tail arc: the radius of the tail's curve, against a card cut to it.
return step {
  id = "tail_arc", title = "Radius of the tail's arc", stage = "survey", unit = "mm", scope = "sections",
  need = "optional",
  plain = "Measured once, before any work",
  ask = "Hold cards cut to known radii against a sample tail. Write the one that fits.",
  why = "The arc and the check's face are a pair. A straight tail meets only one edge of it.",
  target = range("2 1/2 in", "4 in", "3 in"),
  resolution = 5, gauge = 5,
  low_todo = "Arc the tail again to a larger card.",
  high_todo = "Arc the tail again to a smaller card.",
  source = "list-1998-tails; list-2003-tails",
}
