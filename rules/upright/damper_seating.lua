-- Dampers of an upright, seated and free.
return step {
  id = "damper_seating", title = "Dampers seated and free", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Lift each damper by hand and let go. It snaps back square on its strings and stops them all.",
  why = "Seating comes before timing.",
  caution = "Damper wires and springs: mind your eyes.",
  faults = {
    { "leaks", means = "a string goes on sounding",
      todo = "See what holds it off: spoon, pedal rod or a key not home; only then head, felt and spring." },
    { "tight", means = "slow to come back", fix = { { "damper_centre", "free" } } },
    { "turned", means = "head out of line", fix = { { "damper_head", "square" } },
      todo = "Turn the head until it sits over its strings." },
  },
  source = "digest-1997-dampers", unsourced = true,
}
