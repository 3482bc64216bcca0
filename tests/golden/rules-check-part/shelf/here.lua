return book { id = "here", api = 1, title = "Here" }
