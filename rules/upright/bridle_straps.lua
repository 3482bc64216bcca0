-- Bridle straps: just taut at half blow.
return step {
  id = "bridle_straps", title = "Bridle straps", stage = "refine", kind = "judged", scope = "every",
  plain = "How quickly a note can be repeated",
  ask = "Soft pedal down. Straps are taut, and no key or whippen moves.",
  why = "Slack straps help nobody. Short ones lift whippens and dampers.",
  faults = {
    { "slack", means = "hangs at half blow", fix = { { "bridle_wire", "away from the hammers" } } },
    { "short", means = "key winks, or whippen lifts", fix = { { "bridle_wire", "toward the hammers" } } },
    { "broken", means = "perished or off its wire", todo = "Renew it: " ..
      "no longer than the old one by more than 1.6 mm." },
  },
  source = "list-2005-bridle; digest-1998-bridle",
}
