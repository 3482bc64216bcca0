-- Up-stop: ends the damper's flight after a hard blow.
return step {
  id = "up_stop", title = "Up-stop rail", stage = "dampers", kind = "judged", scope = "once",
  plain = "Dampers, which end a note",
  ask = "Press keys to the bottom: levers just touch the rail. Strike hard: no damper hops.",
  why = "Too high and dampers hop or hang. Too low and it ends the key's dip.",
  faults = {
    { "high", means = "dampers hop after a hard blow", fix = { { "up_stop_rail", "lower" } } },
    { "low", means = "keys stop on it", fix = { { "up_stop_rail", "raise" } } },
  },
  source = "college-2010-dampers; list-1995-up-stop",
}
