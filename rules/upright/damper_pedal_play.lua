-- Damper pedal play: the first thing of the dampers. A rod without play holds them off their strings.
return step {
  id = "damper_pedal_play", title = "Damper pedal play", stage = "prepare", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "Press the damper pedal lightly. A little free play, then the dampers. No noise.",
  why = "None at all holds dampers off. Much of it makes a late pedal.",
  faults = {
    { "none", means = "no free play", fix = { { "damper_pedal_rod", "shorten" } } },
    { "much", means = "pedal goes far before dampers move", fix = { { "damper_pedal_rod", "lengthen" } } },
    { "noise", means = "squeak or knock", todo = "Renew leather or felt where pedal, lever and rod meet." },
  },
  unsourced = true,
}
