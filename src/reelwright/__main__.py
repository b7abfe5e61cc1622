"""``python -m reelwright``: the command line."""


def main() -> None:
    """Run the command line."""
    from reelwright.cli.main import command_line

    command_line()


if __name__ == "__main__":
    main()
