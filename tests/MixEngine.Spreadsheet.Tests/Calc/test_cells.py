"""What cells ask, without an office and without a service."""

import json
import unittest

from . import bench  # noqa: F401  (sets the path)
from mixsheet.cells import Cell, Fault, read_call
from mixsheet.phrases import FAULT, WAITING
from mixsheet.screen import rgb_of, text_on


def asked(function, *arguments):
    """The bodies of the questions of one call, in the shape of its grid; finished values as they are."""
    return [[json.loads(entry.question.body) if isinstance(entry, Cell) else entry for entry in row] for row in read_call(function, arguments, "en")[0]]


class RecipesTest(unittest.TestCase):
    def test_a_decimal_comma_is_a_decimal_point(self):
        for written, sent in {
            "2,5 kelp + 1 tide pool": "2.5 kelp + 1 tide pool",
            "1 kelp + 0,25 tide pool": "1 kelp + 0.25 tide pool",
            "2,5:1,5 kelp : tide pool": "2.5:1.5 kelp : tide pool",
            "rust, old": "rust, old",
            "3 rust, 4 years old + 1 kelp": "3 rust, 4 years old + 1 kelp",
        }.items():
            self.assertEqual([[{"recipe": {"text": sent}}]], asked("hex", written, None, None))

    def test_thousands_are_left_for_the_service_to_ask_about(self):
        self.assertEqual("1,500 kelp", asked("hex", "1,500 kelp", None, None)[0][0]["recipe"]["text"])

    def test_rows_beneath_names_are_recipes(self):
        names, parts = (("kelp", "peat", "gull white"),), ((1.0, 2.0, ""), (0.0, None, 3.0), ("2,5", 1.0, 1.0), ("", "", ""))
        self.assertEqual(
            [[{"recipe": {"parts": [{"paint": "kelp", "parts": 1}, {"paint": "peat", "parts": 2}]}}],
             [{"recipe": {"parts": [{"paint": "gull white", "parts": 3}]}}],
             [{"recipe": {"parts": [{"paint": "kelp", "parts": 2.5}, {"paint": "peat", "parts": 1}, {"paint": "gull white", "parts": 1}]}}],
             [("",)]],
            asked("hex", names, parts, None))

    def test_columns_beside_names_are_recipes(self):
        self.assertEqual(
            [[{"recipe": {"parts": [{"paint": "kelp", "parts": 1}]}}, {"recipe": {"parts": [{"paint": "peat", "parts": 2}]}}]],
            asked("hex", (("kelp",), ("peat",)), ((1.0, 0.0), (0.0, 2.0)), None))

    def test_numbers_that_do_not_go_with_the_names_are_refused(self):
        with self.assertRaisesRegex(Fault, "1 x 2 numbers do not go with 3 paint names"):
            read_call("hex", ((("a", "b", "c"),), ((1.0, 2.0),), None), "en")

    def test_a_word_among_the_parts_is_the_fault_of_its_row(self):
        for word in ("some", "nan", "inf", "1_0", "1e400", "1,2,3"):
            grid = asked("hex", (("kelp", "peat"),), ((word, 1.0), (1.0, 1.0)), None)
            self.assertEqual((FAULT + f"parts: '{word}' is not a number.",), grid[0][0])
            self.assertIn("recipe", grid[1][0])

    def test_equal_questions_are_one(self):
        (one, _), (other, _) = read_call("hex", ("kelp", None, None), "en"), read_call("lab", ("kelp", None, None), "en")
        self.assertEqual(one[0][0].question, other[0][0].question)


class ColoursTest(unittest.TestCase):
    def test_three_numbers_in_a_row_are_lab(self):
        self.assertEqual([[{"color": {"lab": {"l": 40.0, "a": -12.0, "b": 0.0}}}]], asked("words", ((40.0, -12.0, 0.0),)))

    def test_between_semicolons_a_comma_is_decimal(self):
        self.assertEqual("lab:40.5,-12,20.25", asked("words", "lab:40,5;-12;20,25")[0][0]["color"]["text"])

    def test_a_number_alone_is_no_colour(self):
        self.assertEqual((FAULT + "colour: 123456 is no colour; write #5a6b3c or lab:40,-12,20, or give three cells with L, a and b.",), asked("words", 123456.0)[0][0])

    def test_what_lies_beneath_a_glaze(self):
        for over, surface in {
            "#c9c9c9": {"color": {"text": "#c9c9c9"}}, "black": {"primer": "black"}, "Grau": {"primer": "grey"}, "2 kelp + 1 peat": {"recipe": {"text": "2 kelp + 1 peat"}},
        }.items():
            self.assertEqual(surface, asked("glaze", "tide pool", over, 3.0, 6.0, None)[0][0]["over"])

    def test_one_cell_goes_with_a_column_and_shapes_must_agree(self):
        self.assertEqual([1, 2, 3], [row[0]["coats"] for row in asked("glaze", "tide pool", "white", ((1.0,), (2.0,), (3.0,)), 6.0, None)])
        with self.assertRaisesRegex(Fault, "second: a range of 2 x 1 cells does not go with one of 3 x 1"):
            read_call("difference", ((("#111",), ("#222",), ("#333",)), (("#111",), ("#222",))), "en")

    def test_coats_are_whole(self):
        self.assertEqual((FAULT + "coats: 1.5 is not a whole number.",), asked("glaze", "tide pool", "white", 1.5, 6.0, None)[0][0])

    def test_a_waiting_or_faulty_cell_is_passed_on(self):
        for message in (WAITING + "asking ...", FAULT + "There is no such paint."):
            self.assertEqual([[(message,)], [("",)]], asked("words", ((message,), ("",))))
            self.assertEqual((message,), asked("difference", message, "#123456")[0][0])

    def test_a_path_is_a_range_or_a_text(self):
        through = [{"text": "kelp"}, {"text": "2 peat + 1 kelp"}]
        self.assertEqual(through, asked("ramp", "kelp > 2 peat + 1 kelp", None, None, None)[0][0]["through"])
        self.assertEqual(through, asked("ramp", (("kelp", "2 peat + 1 kelp"),), None, None, None)[0][0]["through"])


class ScreenTest(unittest.TestCase):
    def test_hex(self):
        for text, rgb in {"#5a6b3c": 0x5A6B3C, "ccc": 0xCCCCCC, " #FFF ": 0xFFFFFF, "#12": None, "#12345": None, "#ggg": None, "kelp": None, 5.0: None}.items():
            self.assertEqual(rgb, rgb_of(text))

    def test_text_is_readable_on_every_grey_and_primary(self):
        # WCAG 2.2, success criterion 1.4.3: a contrast of at least 4.5; black or white always reaches 4.58.
        def luminance(rgb):
            channels = [(rgb >> shift & 255) / 255 for shift in (16, 8, 0)]
            linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
            return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

        for rgb in [grey * 0x10101 for grey in range(256)] + [0xFF0000, 0x00FF00, 0x0000FF, 0xFFFF00]:
            light, dark = sorted((luminance(rgb), luminance(text_on(rgb))), reverse=True)
            self.assertGreaterEqual((light + 0.05) / (dark + 0.05), 4.5)


if __name__ == "__main__":
    unittest.main()
