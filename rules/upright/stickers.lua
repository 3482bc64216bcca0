-- Stickers and lifters: where the whippen stands on a sticker, the rod that carries the key's lift up to it.
return step {
  id = "stickers", title = "Stickers and lifters", stage = "bench", kind = "judged", scope = "every",
  need = "optional",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Where the action has them: each sticker is straight, free in its centre and guide, and stands in the " ..
    "middle of its capstan or key.",
  why = "A sticker that binds, leans or rattles makes lost motion and noise.",
  faults = {
    { "tight", means = "slow to fall", todo = "Free its centre or guide." },
    { "loose", means = "rattles in its centre", todo = "Pin it one size up." },
    { "leans", means = "stands to one side", todo = "Set it over its capstan, then read lost motion again." },
  },
  unsourced = true,
}
