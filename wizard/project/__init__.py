"""What the maker says and did: the project file, its templates and its keeping."""
