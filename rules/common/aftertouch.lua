-- Aftertouch: key travel left after the jack has escaped, or, in the other school, after it has touched its button.
-- Read last of the set, in the piano.
return step {
  id = "aftertouch", title = "Aftertouch", stage = "refine", unit = "mm", scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = by_choice { "aftertouch_from",
    escape = "Lay the spacer on the front punching and press with the same force each time. The jack just escapes.",
    contact = "Press until the jack just touches its button and hold. Read how far the key still goes to the " ..
      "bottom, with the same force each time.",
  },
  why = "It makes checking and repetition sure. Fingers feel its unevenness sooner than that of dip.",
  target = by_choice { "aftertouch_from",
    escape = range(0.75, 1.55, 1.2),    -- .030 and .060 in both pass
    contact = range(2.75, 3.55, 3.2),   -- the same keys, counted from let_off_travel sooner: 1/8 in passes
  },
  resolution = 0.05, gauge = 0.15, even = 0.3,
  model = by_choice { "aftertouch_from",
    escape = "key_dip - (blow - let_off) / travel_ratio - lost_motion",
    contact = "key_dip - (blow - let_off) / travel_ratio - lost_motion + let_off_travel",
  },
  fix = { "front_punching", "capstan" },
  gauge_name = "aftertouch spacer",
  method = by_choice { "aftertouch_from",
    escape = "in the piano, from the jack's escape",
    contact = "in the piano, from the jack's first contact",
  },
  source = "list-1999-aftertouch; list-2009-aftertouch; list-1999-aftertouch-share; " ..
    "list-2010-travel-link; college-2005-dip-floats; common-practice: the aim, evenness",
}
