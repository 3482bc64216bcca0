-- Muffler rail of the practice pedal, where there is one. Without one, a shop book skips the step.
return step {
  id = "muffler_rail", title = "Muffler rail and practice pedal", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "Up: it clears every hammer and shank. Down: its felt hangs before every hammer. The pedal locks, lets go " ..
    "and makes no noise.",
  why = "A rail that hangs low robs tone and makes noise.",
  faults = {
    { "touches", means = "touches hammers when up", todo = "Raise its stop, or bend its arms." },
    { "uneven_felt", means = "misses hammers when down", todo = "Set the arms, or renew the felt." },
    { "no_lock", means = "does not lock, or does not let go", todo = "Set the pedal's catch; look at its spring." },
    { "noise", means = "rattles or squeaks", todo = "Tighten the arms, renew cloth at the lever." },
  },
  unsourced = true,
}
