# What stands on every page.
page-of = page { $page } of { $pages }
date = Date
drawn-smaller = (Drawn at { $percent } % of its size to fit the paper: not to scale.)
no-picture = The picture cannot be shown.
letters-missing = The type has no shape for { $letters }: a box stands in its place.
