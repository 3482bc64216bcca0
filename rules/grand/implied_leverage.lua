-- Implied hammer leverage, for grams only. Never to be used for blow and dip: that is the travel ratio.
return step {
  id = "implied_leverage", title = "Implied hammer leverage", stage = "weigh", kind = "derived", unit = "ratio",
  scope = "every",
  plain = "How heavy the keys feel",
  ask = "Nothing to read: computed when hammer, whippen and key front have been weighed.",
  formula = "((downweight + upweight) / 2 + key_front_load - whippen_weight * capstan_ratio) / hammer_weight",
  target = range(5.3, 6.2, 5.75),
  resolution = 0.01,
  low_todo = "Weigh hammer, whippen and key again. If it holds, state the ratio; look at knuckle and capstan arms.",
  high_todo = "Weigh hammer, whippen and key again. If it holds, state the ratio; look at knuckle and capstan arms.",
  why = "Out of its neighbours' line: weigh again, then the arms. Holds for grands without assist springs.",
  source = "journal-1996-weights; journal-2000-weights; college-2004-leverage; list-2002-leverage; " ..
    "common-practice: limits",
}
