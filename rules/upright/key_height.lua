-- Key height of an upright. No figure has been published, so the maker's figure or the case decides.
return step {
  id = "key_height", title = "Key height", stage = "keys", kind = "judged", scope = "naturals", need = "samples",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Action out: weight each key's back as the action would. Compare the sample naturals with the maker's " ..
    "figure, or with slip, blocks and fallboard.",
  why = "Low keys have short travel, and blow or aftertouch pays for it.",
  faults = {
    { "low", means = "below the figure", fix = { { "balance_punching", "add" }, { "back_rail_cloth", "thin" } } },
    { "high", means = "above the figure",
      fix = { { "balance_punching", "remove" }, { "back_rail_cloth", "thicken" } } },
  },
  unsourced = true,
}
