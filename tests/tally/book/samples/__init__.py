"""Sample books, one of each schema that was released; they must verify for ever."""
