# Lo que lleva cada página.
page-of = página { $page } de { $pages }
