-- Implied travel ratio: the travel ratio that this note's own readings ask for.
return step {
  id = "implied_travel_ratio", title = "Implied travel ratio", stage = "refine", kind = "derived", unit = "ratio",
  scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = "Nothing to read: hammer travel to let-off, for each millimetre of key travel to let-off.",
  formula = by_choice { "aftertouch_from",
    escape = "(blow - let_off) / (key_dip - aftertouch - lost_motion)",
    contact = "(blow - let_off) / (key_dip - aftertouch + let_off_travel - lost_motion)",
  },
  target = range(4.5, 5.6, 5),
  resolution = 0.01, even = 0.3,
  low_todo = "Read blow, let-off, dip and aftertouch again. Then level, shank on the cushion, jack, lost motion.",
  high_todo = "Read blow, let-off, dip and aftertouch again. Then level, shank on the cushion, jack, lost motion.",
  why = "A note that stands out: read again, then level, cushion, jack, lost motion. " ..
    "Last of all geometry, which no screw cures.",
  source = "list-2010-travel-link; common-practice: limits",
}
