-- Invented. The names are those of the first release.
return book {
  id = "shop", api = 1, title = "Shop",
  use "parts",
  use "grand",
  change { "implied_weight_ratio", target = range(5, 6, 5.5), why = "ours" },
  change { "aftertouch", model = "key_dip - (blow - let_off) / distance_ratio - lost_motion", why = "ours" },
  fact { "key_ratio", value = 0.52 },
  skip { "implied_ratio", why = "not asked" },
}
