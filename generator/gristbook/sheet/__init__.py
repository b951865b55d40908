"""Numbers that know where they came from: values, arithmetic with them, their ranges, and the sheet that lists them."""
