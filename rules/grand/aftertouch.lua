-- Aftertouch: key travel left after the jack has escaped. Read last of the set, in the piano.
return step {
  id = "aftertouch", title = "Aftertouch", stage = "refine", unit = "mm", scope = "every",
  ask = "Lay the spacer on the front punching and press with the same force each time. The jack just escapes.",
  why = "It makes checking and repetition sure. Fingers feel its unevenness sooner than that of dip.",
  target = range(0.75, 1.55, 1.2),      -- .030 and .060 in both pass
  resolution = 0.05, gauge = 0.15, even = 0.3,
  model = "key_dip - (blow - let_off) / distance_ratio - lost_motion",
  fix = { "front_punching", "capstan" },
  gauge_name = "aftertouch spacer",
  method = "in the piano, from the jack's escape",
  source = "docs/numbers.md#aftertouch",
}
