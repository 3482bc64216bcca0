-- Names of before, and what they are called now. Sheets and books that use an old name are read for ever, with one
-- notice a file; what is printed or saved uses the new one. A name that was taken out here never comes back with
-- another meaning.
return book {
  id = "renamed", api = 1, title = "Names of before",

  renamed { "balance_weight", "mean_weight" },
  renamed { "key_front_weight", "key_front_load" },
  renamed { "weight_ratio", "hammer_leverage" },
  renamed { "implied_weight_ratio", "implied_leverage" },
  renamed { "key_ratio", "capstan_ratio" },
  renamed { "distance_ratio", "travel_ratio" },
  renamed { "implied_ratio", "implied_travel_ratio" },
}
