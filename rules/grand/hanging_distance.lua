-- Hanging distance: how far along its shank the hammer is hung. With the strike line it places the blow.
return step {
  id = "hanging_distance", title = "Hanging distance", stage = "survey", unit = "mm", scope = "sections",
  need = "optional",
  plain = "Measured once, before any work",
  ask = "Measure from the hammer centre pin to the middle of the hammer's moulding, on the end hammers.",
  why = "A hammer that is hung short strikes nearer to the player and with more leverage.",
  target = range(126, 134, 130),
  resolution = 0.5, gauge = 0.5,
  low_todo = "Compare with the old hammers. Hung wrong, only hanging again helps.",
  high_todo = "Compare with the old hammers. Hung wrong, only hanging again helps.",
  source = "list-2004-string-height: end hammers at 130 mm",
}
