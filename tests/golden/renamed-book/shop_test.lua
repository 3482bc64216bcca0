return tests "shop" {
  { "implied_weight_ratio", "A4",
    with = { downweight = 51, upweight = 27, hammer_weight = 10.4, whippen_weight = 18.5, key_front_weight = 28 },
    want = "pass", source = "college-2004-leverage: 5.5" },
  { "implied_weight_ratio", "A4",
    with = { downweight = 56, upweight = 32, hammer_weight = 9, whippen_weight = 18.5, key_front_weight = 28 },
    facts = { key_ratio = 0.52 }, want = "fail", why = "high", source = "arithmetic: 6.93" },
}
