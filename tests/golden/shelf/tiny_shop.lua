-- An invented shop's book on top of the small one.
return book {
  id = "tiny_shop", api = 1, title = "One octave, our way",
  use "tiny",
  change { "blow", target = range(44, 46, 45), even = 0.5, why = "shorter blow" },
  change { "key_dip", target = range(9.9, 10.1, 9.95), why = "a little less" },
  change { "drop", need = "samples" },
  skip { "una_corda", why = "no left pedal" },
  adjuster { "capstan", moves = { blow = -12 }, why = "measured on our make of action" },
  fact { "capstan_rise", value = 12, why = "the same" },
  fact { "hammer_bore", title = "bore of the hammers", unit = "mm", value = 50 },
  use "key_level",
}
