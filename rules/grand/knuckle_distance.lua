-- Knuckle distance: the short arm of the shank. Half a millimetre changes the whole touch.
return step {
  id = "knuckle_distance", title = "Knuckle distance", stage = "survey", unit = "mm", scope = "sections",
  need = "optional",
  plain = "Measured once, before any work",
  ask = "Measure from the hammer centre pin to the middle of the knuckle's core.",
  why = "With the hanging distance it gives the shank's leverage; parts of 15.5 to 17 mm are sold.",
  target = range(15, 18, 17),
  resolution = 0.5, gauge = 0.2, even = 0.5, breaks = false,
  low_todo = "Read again. A short one means a high ratio: a heavy touch and a shallow key.",
  high_todo = "Read again. A long one means a low ratio: a light touch and a deep key.",
  source = "list-2001-knuckles: 16.5 and 17 mm; from-memory: 15.5 and 16 mm",
}
