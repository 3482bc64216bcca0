-- Mean weight of an upright. Over 40 g: look for a geometry fault, not for lead.
return step {
  id = "mean_weight", title = "Mean weight", stage = "weigh", kind = "derived", unit = "g", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Nothing to read: the mean of downweight and upweight.",
  formula = "(downweight + upweight) / 2",
  target = range(34, 40, 37),
  resolution = 0.5,
  low_todo = "Weigh again both ways, then look for a weak butt spring.",
  high_todo = "Look at the keyframe's place and the geometry, then at springs; lead comes last.",
  why = "Over 40 g look at the keyframe's place and the geometry first, then at springs.",
  source = "list-2000-upright-weights",
}
