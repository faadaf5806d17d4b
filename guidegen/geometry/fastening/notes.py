"""A kit in → the same kit, the living numbers in the notes of its pieces and layers as words."""

from dataclasses import replace

from guidegen.buildfile.living.holes import Living, fill_holes
from guidegen.buildfile.living.texts import number_words
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.fastening.answers import living_value
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.words import Words


def speak(kit: Kit, words: Words) -> Kit:
    """The kit with plain words in its notes; a number without value is left to the audit."""

    def say(living: Living) -> str:
        try:
            return number_words(living, living_value(kit, living), words)
        except ExpressionError:
            return "?"

    def spoken(piece: Piece) -> Piece:
        note = fill_holes(piece.note, say)
        return piece if note == piece.note else replace(piece, note=note)

    return replace(
        kit,
        pieces=tuple(map(spoken, kit.pieces)),
        wholes=tuple(map(spoken, kit.wholes)),
        stacks=tuple(
            replace(
                stack,
                layers=tuple(replace(one, note=fill_holes(one.note, say)) for one in stack.layers),
            )
            for stack in kit.stacks
        ),
    )
