return book { id = "grand", api = 1, title = "Ours", use "grand" }
