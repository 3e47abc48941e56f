"""Three wrong PINs of one name, then a pause; another name does not wait."""

from screens.pin_tries import PinTries


def test_three_tries_then_a_pause_then_three_again():
    now = [100.0]
    tries = PinTries(lambda: now[0])
    assert [tries.wrong("Ama") for _ in range(3)] == [2, 1, 0]
    assert tries.wait("Ama") == 30
    assert tries.wait("Ivo") == 0
    now[0] += 29.5
    assert tries.wait("Ama") == 1
    now[0] += 0.5
    assert tries.wait("Ama") == 0
    assert tries.wrong("Ama") == 2


def test_the_right_one_begins_the_count_anew():
    tries = PinTries()
    assert tries.wrong("Ama") == 2
    tries.right("Ama")
    assert tries.wrong("Ama") == 2
