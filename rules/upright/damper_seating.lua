-- Dampers of an upright, seated and free.
return step {
  id = "damper_seating", title = "Dampers seated and free", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Lift each damper by hand and let go. It snaps back square on its strings and stops them all.",
  why = "Seating comes before timing.",
  caution = "Damper wires and springs: mind your eyes.",
  faults = {
    { "leaks", means = "a string goes on sounding", todo = "Square the head on its wire. " ..
      "Look at the felt and the spring." },
    { "tight", means = "slow to come back", todo = "Free the centre of the damper lever." },
    { "turned", means = "head out of line", todo = "Turn the head until it sits over its strings." },
  },
  source = "digest-1997-dampers", unsourced = true,
}
