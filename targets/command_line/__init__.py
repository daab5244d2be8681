"""The command line: the one place that reads files, prints and exits."""


def main() -> int:
    """Run the command and return its exit code."""
    print("setwright: no command is built yet")
    return 2
