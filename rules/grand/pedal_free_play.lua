-- Free play of the damper pedal: the trace that lets the dampers seat.
return step {
  id = "pedal_free_play", title = "Free play of the damper pedal", stage = "dampers", unit = "mm", scope = "once",
  plain = "Pedals",
  ask = "Press the damper pedal with a finger. Read its travel at the tip until the first damper moves.",
  why = "None, and dampers leak. Much, and the pedal feels dead.",
  target = range(1, 10, 4),
  resolution = 0.5, gauge = 1,
  fix = { "pedal_rod" },
  unsourced = true, source = "common-practice",
}
