"""The log sheet: the page on which an athlete writes down what was done."""
