-- Damper stop rail: it waits beyond the pedal's lift.
return step {
  id = "stop_rail", title = "Damper stop rail beyond pedal lift", stage = "dampers", unit = "mm", scope = "once",
  plain = "Dampers, which end a note",
  ask = "Damper pedal down. Read the gap between the lifted damper levers and the stop rail.",
  why = "It ends the flight after a hard blow, and must not hinder key or pedal.",
  target = range(3, 5, 4),
  resolution = 0.5, gauge = 0.5,
  fix = { "damper_stop_rail" },
  caution = "Mark where the rail is before you loosen it; lock it again before a firm blow.",
  source = "list-2004-stop-rail",
}
