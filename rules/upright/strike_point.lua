-- Strike point at the top note. Elsewhere the scale decides.
return step {
  id = "strike_point", title = "Strike point of the top note", stage = "prepare", unit = "mm", scope = "once",
  plain = "How the hammers travel and meet their strings",
  ask = "Mark where the highest hammer strikes. Measure from there to the bar where the string ends.",
  why = "Height of the action sets it. Its last place is found by ear.",
  target = range(2, 2.7, 2.4),
  resolution = 0.1, gauge = 0.3,
  fix = { "action_height" },
  caution = "Support the action before you free it. A tilted upright falls backwards.",
  source = "page-2011-upright",
}
