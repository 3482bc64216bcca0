-- Damper start as a share of the hammer's stroke.
return step {
  id = "damper_fraction", title = "Damper start, share of blow", stage = "dampers", kind = "derived", unit = "ratio",
  scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Nothing to read: hammer travel at damper start, as a share of the blow.",
  formula = "damper_start / blow",
  target = range(0.4, 0.6, 0.5),
  resolution = 0.01,
  fix = { "key_end_felt", "damper_wire" },
  why = "The same for every note, whichever share the book asks for.",
  source = "page-grand-guide: part XXIX; journal-damper-steps; list-2005-damper-timing; common-practice: the band",
}
