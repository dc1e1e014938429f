# What stands on every page.
page-of = page { $page } of { $pages }
