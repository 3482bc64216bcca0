-- Lyre and pedals: tight, quiet, without play.
return step {
  id = "lyre_and_pedals", title = "Lyre and pedals", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "Wiggle the lyre and each pedal. Work them fast and slowly. Look at braces, rods and leathers.",
  why = "Play and squeaks here undo good dampers.",
  caution = "The lyre drops when freed: hold it. Nothing under a piano that is being moved.",
  faults = {
    { "loose", means = "the lyre moves", todo = "Tighten its plate and braces." },
    { "play", means = "a pedal moves before its rod does", todo = "Take up the rod, but leave a trace of free play." },
    { "noise", means = "squeak or knock", todo = "Renew leather or felt, then a dry lubricant." },
  },
  unsourced = true,
}
