"""What a class buys together, as values that JSON knows."""

from fewtubes.shopping.class_share import ClassShare, ClassTube
from fewtubes.words.amounts import file_need
from fewtubes.words.money import amount
from fewtubes.words.printable import printable

__all__ = ["class_values"]


def class_values(share: ClassShare | None) -> dict[str, object] | None:
    """Return the cost a head and what is left over; None if the scenario is of no class."""
    if share is None:
        return None
    return {
        "painters": share.group.painters,
        "a_head": amount(share.a_head),
        "a_head_together": amount(share.together),
        "back_a_head": amount(share.back_a_head),
        "owned": [printable(tube.id) for tube in share.owned],
        "tubes": [_tube(tube) for tube in share.tubes],
    }


def _tube(tube: ClassTube) -> dict[str, object]:
    """Return one paint; what is reckoned from pictures is told to two figures."""
    return {
        "id": printable(tube.tube.id),
        "needed": tube.needed,
        "bought": tube.bought,
        "needed_ml": tube.needed_ml if tube.counted else file_need(tube.needed_ml, tube.bought_ml),
        "bought_ml": tube.bought_ml,
        "counted": tube.counted,
    }
