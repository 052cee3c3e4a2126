"""The command line: it parses, asks the library, and hands the answer to a report."""
