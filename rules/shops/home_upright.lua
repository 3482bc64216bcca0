-- Invented: home visits to uprights, one afternoon each. Wider where nobody is harmed, no weighing.
return book {
  id = "home_upright", api = 1, title = "Home uprights (invented)",
  use "upright",
  change { "let_off", target = graded { { "A0", range(2.4, 4, 3.2) }, { "C8", range(1.5, 3.2, 2.4) } },
    why = "safe through a damp summer" },
  change { "lost_motion", target = range(0.2, 0.8, 0.4), why = "a little more is left before the humid months" },
  change { "checking", target = range(13, 18, 15.5), even = 3, why = "old leather does not catch to a millimetre" },
  skip { "downweight", why = "not weighed on a home visit" },
  skip { "upweight", why = "not weighed on a home visit" },
  skip { "friction", why = "computed from what is not weighed" },
  skip { "mean_weight", why = "computed from what is not weighed" },
  skip { "strike_point", why = "the action height is left as the maker set it" },
  float { "key_dip", within = "0.4 mm" },
}
