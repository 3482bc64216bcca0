-- Bridle straps: just taut at half blow, so after the soft pedal is set.
return step {
  id = "bridle_straps", title = "Bridle straps", stage = "dampers", kind = "judged", scope = "every",
  plain = "How quickly a note can be repeated",
  ask = "Soft pedal down. Straps are taut, and no key or whippen moves.",
  why = "Slack straps do nothing. Short ones lift whippens and dampers.",
  faults = {
    { "slack", means = "hangs at half blow", fix = { { "bridle_wire", "away from the hammers" } } },
    { "short", means = "key winks, or whippen lifts", fix = { { "bridle_wire", "toward the hammers" } } },
    { "broken", means = "perished or off its wire", todo = "Renew the strap, at most 1.6 mm " ..
      "longer than the old one." },
  },
  source = "list-2005-bridle; digest-1998-bridle",
}
