"""When each stretch of a class begins."""

from bowlbook.figures.timetable import starts_of


def test_from_nothing_to_the_end(demo_book) -> None:
    assert demo_book.classes
    for notes in demo_book.classes.values():
        minutes = [item.minutes for item in notes.outline]
        assert starts_of(notes) == [sum(minutes[:place]) for place in range(len(minutes) + 1)]
