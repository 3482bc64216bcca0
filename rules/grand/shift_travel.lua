-- How far the action shifts, as a number: the stop can be set by it and found again.
return step {
  id = "shift_travel", title = "Travel of the shift", stage = "dampers", unit = "mm", scope = "once", need = "optional",
  plain = "Pedals",
  ask = "Mark a key block's place on the keybed. Press the shift pedal to its stop and read how far the frame went.",
  why = "The same pedal feels the same after every repair.",
  target = range(1, 3.5, 2),
  resolution = 0.1, gauge = 0.3,
  fix = { "shift_stop" },
  unsourced = true, source = "common-practice",
}
