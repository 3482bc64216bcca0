-- Aftertouch of an upright: key travel left once the jack has escaped, or has touched its button. Smaller than a
-- grand's.
return step {
  id = "aftertouch", title = "Aftertouch", stage = "refine", unit = "mm", scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = by_choice { "aftertouch_from",
    escape = "Lay the spacer on the front punching and press with the same force each time. The jack just escapes.",
    contact = "Press until the jack just touches its button and hold. Read how far the key still goes to the " ..
      "bottom, with the same force each time.",
  },
  why = "Without it the hammer is not caught. Too much makes a loose touch.",
  target = by_choice { "aftertouch_from",
    escape = range(0.4, 1.3, 1),        -- .050 in passes
    contact = range(2.4, 3.3, 3),       -- the same keys, counted from let_off_travel sooner
  },
  resolution = 0.05, gauge = 0.15, even = 0.3,
  model = by_choice { "aftertouch_from",
    escape = "key_dip - (blow - let_off) / travel_ratio - lost_motion",
    contact = "key_dip - (blow - let_off) / travel_ratio - lost_motion + let_off_travel",
  },
  fix = { "front_punching" },           -- never the capstan: it takes up lost motion, and no more
  gauge_name = "aftertouch spacer",
  method = by_choice { "aftertouch_from",
    escape = "in the piano, from the jack's escape",
    contact = "in the piano, from the jack's first contact",
  },
  source = "list-1998-upright; forum-french-upright; common-practice: lower limit, aim",
}
