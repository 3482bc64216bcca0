-- Schools that grand and upright share. The trade answers each of these in more than one way; a book takes one.
-- A shop takes another in one line: choose { "key_line", "crowned", why = "..." }.
return book {
  id = "schools", api = 1, title = "Schools of grand and upright",

  -- Both books, and those that a shop once made like them, begin with this part: so what all books share comes here.
  use "sources",
  use "renamed",

  choice { "aftertouch_from", "escape", title = "Aftertouch is counted",
    options = { escape = "from the jack's escape", contact = "from the jack's first contact with its button" },
    source = "college-2005-dip-floats; forum-2024-aftertouch; list-2000-first-contact; digest-2002-blow" },

  choice { "key_line", "straight", title = "The key line is",
    options = { straight = "straight", crowned = "crowned, 1/32 in high in the middle" },
    source = "list-2001-crown; list-2010-crown" },

  -- What lies between the two readings of aftertouch. Only the second school needs it.
  fact { "let_off_travel", title = "key travel from first contact with the button to escape", unit = "mm", value = 2,
    assumed = true,
    source = "college-2005-dip-floats; forum-2024-aftertouch; list-2000-first-contact; digest-2002-blow" },
}
