# Lo que los dibujos dicen en frases a quien no los ve. El glosario está en crew.ftl.

# El corte, dicho con palabras
d-s-cross-section = Corte en { $n }, de espaldas a la puerta, a escala.
d-s-grade-line = La línea de rasante está { $place } el umbral aquí.
d-s-old-surface = La superficie vieja está { $place } la línea de rasante.
d-s-old-surface-not-here = La superficie vieja está { $place } la línea de rasante; aquí no se midió.
d-s-old-surface-unknown = No se midió la superficie vieja.
d-s-widths = Ancho libre { $n } en { $bricks }, { $m } por fuera del borde, excavación de { $k } de ancho: { $j } más allá del borde a cada lado.
d-s-one-brick = 1 ladrillo
d-s-bricks = { $n } ladrillos
d-s-brick = Ladrillo de { $n } de grueso, juntas de { $m }, sobre una cama de arena de { $k }.
d-s-base-top = Cara superior de la base { $n } bajo la línea de rasante.
d-s-base = Base de { $n } de grueso en { $lifts } de a lo más { $m } compactada, { $k } suelta.
d-s-one-lift = 1 capa
d-s-lifts = { $n } capas
d-s-dig-bottom = Fondo de la excavación { $n } bajo la línea de rasante.
d-s-fabric = Hay geotextil sobre el terreno natural.
d-s-edge = A los dos lados { $name }, { $n } de hondo, { $held }.
d-s-must-come-out = Lo que debe salir termina { $place } la línea de rasante.
d-s-no-bottom = No se halló el fondo de lo que debe salir: { $deep }.
d-s-nearest-pit = Pozo más cercano, pozo { $n } en { $m }, { $away }: { $layers }.
d-s-no-pit = Sin pozo: no se sabe el fondo; se dibuja la base mínima.
d-s-near-cut = Cerca del corte, { $name }: { $what }.
d-s-base-of = Base de { $name }.

# El corte a lo largo, dicho con palabras
d-s-long-section = Corte a lo largo de { $n } por el eje, alturas × { $m }.
d-s-grade-fixed = La línea de rasante empieza { $start } el umbral, { $fall } y termina { $end } el umbral; el extremo es fijo.
d-s-grade-free = La línea de rasante empieza { $start } el umbral, { $fall } y termina { $end } el umbral; el extremo es libre.
d-s-old-from-to = La superficie vieja se midió de { $n } a { $m }.
d-s-dig = La excavación tiene de { $n } a { $m } de hondo bajo la línea de rasante.
d-s-lift-drawn = La capa { $n } desde abajo se dibuja en { $parts }.
d-s-one-part = 1 parte
d-s-parts = { $n } partes
d-s-curves-right = El andador da vuelta a la derecha de { $n } a { $m }.
d-s-curves-left = El andador da vuelta a la izquierda de { $n } a { $m }.
d-s-pit = Pozo { $n } en { $m }: { $layers }.
d-s-strength = CBR { $n } en su fondo
d-s-cut-at = El corte está en { $n }.

# Señales y lecturas, dichas con palabras
d-s-sign-at = { $name }, { $how }, en { $n }
d-s-sign-along = { $name }, { $how }, en todo el largo
d-s-slight = leve
d-s-plain = visible
d-s-bad = grave
d-s-sunk = Hundido
d-s-heaved = Levantado
d-s-rocking = Ladrillo que se mueve
d-s-open-joints = Juntas abiertas
d-s-moss = Musgo o hierba
d-s-ponding = Charco
d-s-edge-spread = Borde abierto
d-s-cracked = Ladrillo agrietado o desconchado
d-s-root = Raíz
d-s-downpipe = Bajada de agua
d-s-sign = Señal
d-s-pit-seep = Pozo { $n }, agua a { $m }
d-s-pit-layer = Pozo { $n }, { $layer }
d-s-no-thickness = { $name }, grueso sin medir
d-s-very-soft = { $name }, muy blando
d-s-soft = { $name }, blando
d-s-firm = { $name }, firme
d-s-hard = { $name }, duro
d-s-very-hard = { $name }, muy duro
d-s-dry = { $name }, seco
d-s-moist = { $name }, húmedo
d-s-wet = { $name }, mojado
d-s-level-at = Nivel en { $n }, lectura { $m }
d-s-level = Nivel, lectura { $m }
d-s-sill-above = Umbral sobre el ladrillo viejo
d-s-far-end-below = Extremo bajo el umbral
d-s-brick-length = Largo del ladrillo
d-s-brick-width = Ancho del ladrillo
d-s-joint = Junta
d-s-least-base = Base mínima
d-s-leg-radius = Tramo { $n }, radio { $m }
d-s-whole-follows = con juntas a la mitad de sus límites el ladrillo entero sigue la curva desde { $n }
d-s-nothing-holds = Nada contiene el borde nuevo
d-s-no-fabric = Sin geotextil bajo la base nueva

# El borde, dicho con palabras
d-s-right-edge = El borde derecho en { $n }, de espaldas a la puerta, a escala.
d-s-edge-brick = Ladrillo de borde de { $n } de ancho, { $m } de hondo, { $k } más allá hasta el costado de la excavación.
d-s-haunch = Su chaflán tiene { $n } de alto y { $m } de ancho; su punta de arriba queda { $k } bajo la cara superior del ladrillo de borde.

# La planta, dicha con palabras
d-s-plan = Planta a escala de { $n } por el eje, { $name }.
d-s-clear = Tiene { $n } libre, { $m } con bordes.
d-s-clear-tapers = Tiene { $n } libre, { $m } con bordes en la puerta y { $k } libre, { $j } con bordes en el extremo.
d-s-plan-curves-right = Da vuelta a la derecha de { $n } a { $m }, radio { $k } por el eje, { $j }.
d-s-plan-curves-left = Da vuelta a la izquierda de { $n } a { $m }, radio { $k } por el eje, { $j }.
d-s-none-laid = No hay ladrillos colocados.
d-s-one-piece = 1 pieza: { $kinds }.
d-s-pieces = { $n } piezas: { $kinds }.
d-s-whole = enteros: { $n }
d-s-along-right = Las hiladas van a lo largo; se empieza en la puerta, por la derecha.
d-s-along-left = Las hiladas van a lo largo; se empieza en la puerta, por la izquierda.
d-s-across-right = Las hiladas van de lado a lado; se empieza en la puerta, por la derecha.
d-s-across-left = Las hiladas van de lado a lado; se empieza en la puerta, por la izquierda.
d-s-joints = Las juntas van de { $n } a { $m }; la más ancha está en la hilada { $k } en { $j }.
d-s-least-lap = El menor traslape es de { $n } en la hilada { $m } en { $k }.
d-s-walk-falls = El andador { $fall } alejándose de la puerta.
d-s-falls-across-right = De lado { $fall }, hacia la derecha.
d-s-falls-across-left = De lado { $fall }, hacia la izquierda.
d-s-opening = Queda libre un hueco de { $n } por { $m } en { $k }.
d-s-one-not-laid = 1 cosa no se pudo colocar como se pidió.
d-s-not-laid = { $n } cosas no se pudieron colocar como se pidió.
d-s-bearing = La salida de la puerta va a { $n } del norte.
d-s-no-north = No se sabe dónde está el norte.

# Donde todavía no se puede dibujar
d-s-section-not-known = Todavía no se conoce el corte.
d-s-long-not-known = Todavía no se conoce el corte a lo largo.
d-s-plan-not-known = Todavía no se conoce la planta.
