"""The drawer: lots as rows that are typed."""
