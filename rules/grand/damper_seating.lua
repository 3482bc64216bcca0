-- Dampers seated and free: heads on their strings, wires straight in their guides.
return step {
  id = "damper_seating", title = "Dampers seated and free", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Lift each damper by its underlever and let it fall. It drops at once and cuts every string.",
  why = "Seating comes before timing: a head that hangs wrong can't be timed.",
  caution = "Damper wires have sharp ends: mind your eyes and hands.",
  faults = {
    { "leaks", means = "a string goes on sounding", todo = "Seat the felt on that string. " ..
      "Look for a bent wire or hard felt." },
    { "tight", means = "slow in its guide", todo = "Ease the guide bushing, or straighten the wire." },
    { "bent", means = "its wire leans or is bent",
      todo = "Straighten the wire: no side push in the guide, up or down." },
    { "turned", means = "head out of line", todo = "Turn the head or bend the wire until it sits over its strings." },
  },
  source = "maker-damper-class", unsourced = true,
}
