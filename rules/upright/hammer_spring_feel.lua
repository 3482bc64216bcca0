-- Butt springs: they bring the hammer home, since gravity alone does not.
return step {
  id = "hammer_spring_feel", title = "Hammer springs", stage = "bench", kind = "judged", scope = "every",
  plain = "How quickly a note can be repeated",
  ask = "Push the hammer to the string and let go. It comes home at once, like its neighbours.",
  why = "A weak spring loses repetition, a strong one weighs on the finger.",
  faults = {
    { "weak", means = "slow to come home", fix = { { "hammer_spring", "stronger" } },
      todo = "Try the centre first." },
    { "strong", means = "heavy against the finger", fix = { { "hammer_spring", "weaker" } } },
    { "off", means = "spring out of its groove or its loop, or broken", todo = "Put it back, or renew it." },
  },
  source = "page-2001-butt-springs; list-2006-upright-touch", unsourced = true,
}
