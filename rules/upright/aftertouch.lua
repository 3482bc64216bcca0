-- Aftertouch of an upright: key travel left once the jack has escaped. Smaller than a grand's.
return step {
  id = "aftertouch", title = "Aftertouch", stage = "refine", unit = "mm", scope = "every",
  ask = "Lay the spacer on the front punching and press with the same force each time. The jack just escapes.",
  why = "Without it the hammer is not caught. Too much makes a loose touch.",
  target = range(0.4, 1.3, 0.9),        -- .050 in passes
  resolution = 0.05, gauge = 0.15, even = 0.3,
  model = "key_dip - (blow - let_off) / distance_ratio - lost_motion",
  fix = { "front_punching", "capstan" },
  gauge_name = "aftertouch spacer",
  method = "in the piano, from the jack's escape",
  source = "docs/numbers.md#upright_aftertouch",
}
