-- Invented.
return book { id = "shop", api = 1, title = "Shop", use "tiny",
  change { "drop", target = range(0.8, 1.4), why = "house habit" } }
