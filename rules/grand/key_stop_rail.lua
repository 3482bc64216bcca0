-- Key stop rail: keeps the keys on their pins, and touches none at rest.
return step {
  id = "key_stop_rail", title = "Key stop rail", stage = "refine", kind = "judged", scope = "once",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Fit the rail. Every key returns freely, and none can leave its pin.",
  why = "A low rail slows keys and falsifies level. A high one lets keys jump.",
  faults = {
    { "low", means = "touches keys at rest", fix = { { "key_stop", "raise" } } },
    { "high", means = "keys can jump", fix = { { "key_stop", "lower" } } },
  },
  unsourced = true,
}
