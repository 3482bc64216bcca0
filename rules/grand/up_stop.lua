-- Up-stop: ends the damper's flight after a hard blow. It never ends the key's travel.
return step {
  id = "up_stop", title = "Up-stop rail", stage = "dampers", kind = "judged", scope = "once",
  plain = "Dampers, which end a note",
  ask = "Press keys to the bottom: a hair of gap is left between levers and rail. Strike hard: no damper hops.",
  why = "Too high and dampers hop or hang. Too low and it steals the key's dip.",
  faults = {
    { "high", means = "dampers hop after a hard blow", fix = { { "up_stop_rail", "lower" } } },
    { "low", means = "keys stop on it", fix = { { "up_stop_rail", "raise" } } },
  },
  masks = { "key_dip", "aftertouch" },   -- on that rail nobody can tell how deep the key would go
  source = "college-2010-dampers; list-1995-up-stop",
}
