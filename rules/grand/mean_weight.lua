-- Mean weight: the mean of downweight and upweight, free of friction.
return step {
  id = "mean_weight", title = "Mean weight", stage = "weigh", kind = "derived", unit = "g", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Nothing to read: the mean of downweight and upweight.",
  formula = "(downweight + upweight) / 2",
  target = range(34, 41, 38),
  resolution = 0.5, even = 2,
  fix = { "key_lead" },
  masks = { "downweight", "upweight" },    -- one lead, one amount, and from both readings
  why = "Weight and leverage, friction taken out. One gram at the key front moves it one gram.",
  caution = "Lead: catch the swarf, never blow or dry-sand, wash hands, follow local waste rules.",
  source = "college-weights; list-2004-weights; college-2004-leverage",
}
