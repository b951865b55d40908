"""What is not possible: the one exception whose words are told to an author."""


class Refusal(ValueError):
    """Physics, a vessel or a reading refuses the numbers; the words say why, to whoever wrote them.

    Nothing else that goes wrong is told as an author's fault: any other exception is a fault of ours.
    """
