# Lo que lleva cada página.
page-of = página { $page } de { $pages }
date = Fecha
drawn-smaller = (Dibujado al { $percent } % de su tamaño para que quepa en la hoja: no está a escala.)
no-picture = La imagen no se puede mostrar.
letters-missing = La letra de imprenta no tiene forma para { $letters }: en su lugar va un recuadro.
