# La hoja de obra. Glosario, siempre igual: brick = ladrillo; walk = andador; run = recorrido; string = cordel; grade line = línea de
# rasante; setting bed = cama de arena; base = base; lift = capa; dig = excavación; form = cimbra; edge brick = ladrillo de borde;
# restraint = contención; haunch = chaflán de concreto; fabric = geotextil; joint = junta; bond = aparejo; course = hilada; lap = traslape;
# stake = estaca; hold point = punto de control; plate = placa compactadora; rod = estadal; screed board = regla; notch = rebaje.

crew-sheet = Hoja de obra
not-known = no se sabe
none-needed = no hay
not-all-known = Lo que falta para construir
not-all-known-text = Con las lecturas todavía no se puede definir la base; de ella salen estacas, capas y puntos de control. `underbrick check` y la aplicación dicen qué falta.

# Lo que se construye
what-is-built = Lo que se construye
fact-address = Dirección
fact-walk = Andador
fact-length = Largo del recorrido
fact-clear-width = Entre los ladrillos de borde
fact-over-edges = De borde a borde, por fuera
fact-fall = Pendiente
fact-brick = Ladrillo
fact-bond = Aparejo
fact-setting-bed = Cama de arena, compactada
fact-base = Base, compactada
fact-fabric = Geotextil
fact-edge = Ladrillo de borde
fact-restraint = Contención
fact-string = Cordel
string-above = { $above } arriba de la línea de rasante
string-on = sobre la línea de rasante
in-lifts = { $thickness } en { $lifts ->
    [one] 1 capa
   *[other] { $lifts } capas
}
from-to = de { $least } a { $most }
fabric-yes = sobre el terreno, debajo de la base
falls-from-door = { $fall }, alejándose de la puerta
falls-in-pieces = { $pieces } tramos, vea el corte a lo largo
at-the-door = { $width } en la puerta

# Borde y contención
edge-sailor = parado, con la cara ancha hacia el andador
edge-soldier = parado, con la cara angosta hacia el andador
edge-header = a tizón: acostado, a lo ancho del recorrido
edge-stretcher = a soga: acostado, a lo largo del recorrido
edge-rowlock = sardinel: de canto, a lo ancho del recorrido
restraint-haunch = chaflán de concreto, { $high } de alto, { $wide } de ancho
restraint-spiked = perfil de borde con clavos
restraint-nothing = nada

# Aparejos
bond-running = aparejo corrido (a soga)
bond-stack = aparejo apilado, juntas en línea
bond-basket-two-on-two = tejido de canasta, dos y dos
bond-basket-two-on-one = tejido de canasta, dos y uno
bond-herringbone-90 = espina de pez a 90 grados
bond-herringbone-45 = espina de pez a 45 grados
courses-along = hiladas a lo largo del recorrido
courses-across = hiladas de lado a lado

# Precauciones
before-you-start = Antes de excavar
caution-services = Haga localizar las instalaciones enterradas antes de que alguien excave.
caution-code = Las heladas y el desagüe quedan sujetos al código local y a profesionales con licencia: nada de esta hoja los sustituye.
caution-trench = Si el costado de una zanja puede deslizarse, se le da talud o se apuntala antes de que alguien entre.
caution-dust = Cortar ladrillo o piedra levanta polvo de sílice: corte con agua o con aspiración y use una mascarilla hecha para eso.
caution-concrete = El concreto fresco quema la piel y los ojos: guantes, botas, lentes de seguridad; lávese de inmediato.
caution-lifting = Levante ladrillo y piedra en cargas que una sola espalda aguante.

# Trazo
setting-out = Trazo
string-how = Tense el cordel sobre el eje de modo que en cada estaca quede { $above } arriba de la línea de rasante. Desde el cordel se mide con la cinta hacia abajo: la tabla dice cuánto debe marcar. En un escalón el cordel sube o baja con la rasante.
string-on-how = Tense el cordel sobre el eje de modo que en cada estaca marque la línea de rasante. Desde el cordel se mide con la cinta hacia abajo: la tabla dice cuánto debe marcar. En un escalón el cordel sube o baja con la rasante.
stakes = Estacas: desde el cordel hacia abajo, en el eje
stakes-rod = Estacas: la lectura que hoy debe dar el estadal
stakes-edge = Estacas: borde de la { $side }, desde el cordel llevado a nivel
stakes-both-edges = Estacas: bordes izquierdo y derecho iguales, desde el cordel llevado a nivel
continued = { $what } (continuación)
station = Estación
why = Motivo
dig = Excavar
dig-note = Excavar se cuenta desde la superficie actual hasta el fondo de la excavación.
dig-note-minus = Lo que se rellena lleva un menos.
dig-note-star = * Ahí no se midió la superficie actual.
why-door = puerta
why-spacing = intervalo
why-leg-end = fin del tramo { $leg }
why-break = cambio de pendiente
why-before-riser = antes de un escalón
why-behind-riser = después de un escalón
why-pit = pozo { $pit }
why-far-end = extremo
surface-dig-bottom = fondo de excavación
surface-lift = capa { $number }
surface-form-top = canto superior de la cimbra
surface-edge-top = ladrillo de borde
surface-setting-bed = cama de arena
surface-brick-top = ladrillo
side-left = izquierda
side-right = derecha
form-out = Cimbra, desde el eje
form-down = Canto superior de la cimbra
dig-out = Excavación, desde el eje
dig-down = Fondo de excavación
trench-down = Fondo de zanja

# Curvas
curves = Curvas
curve = Tramo { $leg }, borde de la { $side }, cara exterior del ladrillo de borde, de { $from } a { $to }
curve-chord = Una línea recta de un extremo al otro mide { $chord }; por el arco son { $arc }.
curve-swing = O gire una cinta de { $radius } desde un punto a { $out } del eje donde empieza el tramo, a escuadra del recorrido, del lado hacia el que da vuelta.
curve-no-swing = Ahí el andador cambia de ancho: trácelo por ordenadas, la cinta desde un centro no sirve.
along-chord = Por la línea
offset = Ordenada

# Cortes
sections = Cortes
section-caption = Corte en { $station }{ $scale }. Desde el cordel: { $drops }.
drop-of = { $surface }: { $drop }
to-scale = , a escala { $scale }
long-section = A lo largo del andador
long-caption = El andador a lo largo{ $scale }. Las alturas van dibujadas { $times } veces más grandes que los largos.

# Capas
lifts = Capas
lift = Capa
loose-most = Vaciar a lo más
compacted-to = Compactada, donde es más gruesa
runs-where = Dónde
passes = Pasadas
passes-least = por lo menos { $passes }
passes-note = El menor número de pasadas publicado para este grueso con cualquier placa (especificación escocesa de reposición, tabla A8.1). La regla de la propia placa va primero; debe llegar al 98 % de la densidad Proctor estándar.
everywhere = en todo

# Borde y cimbra
edge-and-forms = Borde y cimbra
edge-brick-size = Ladrillo de borde: a lo ancho, a lo largo, hacia abajo
trench = Zanja por debajo de la cara superior de la base
trench-size = { $deep } de hondo, { $wide } de ancho
forms = Tablas de cimbra
forms-size = { $length } en { $boards } tablas de { $board }
form-stakes = Estacas de la cimbra
spacers = Separadores cortados al ancho libre
concrete = Concreto para el chaflán
edge-detail = El borde derecho a la mitad del andador{ $scale }. El borde izquierdo se hace al revés; lo que cambia a lo largo está en las tablas de estacas.

# Regla y escantillón
screed-and-gauge = Regla y escantillón
screed-length = Regla
screed-notch = Rebaje en los dos extremos
screed-proud = Cuánto sobresale el ladrillo antes de pasar la placa
gauge = Escantillón: marcas desde su extremo de arriba, que se sostiene al cordel
surface = Superficie
mark-at = Marca a
mark-where = Vale
mark-least = donde la excavación es la menos honda

# Colocación
laying = Colocación
fact-start = Se empieza por la
fact-pieces = Piezas en campo y bordes
fact-bricks = Ladrillos en total, aprovechando los recortes
fact-joint = Junta
fact-narrowest = Junta más angosta
fact-widest = Junta más ancha
fact-least-lap = Menor traslape
at-station = { $size } en { $station }
plan-caption = Plano de colocación, parte { $part } de { $parts }: de { $from } a { $to }{ $scale }. Las piezas cortadas van rayadas; sus letras están en la lista de cortes. La línea de empalme { $match } está en las dos partes.
plan-caption-alone = Plano de colocación{ $scale }. Las piezas cortadas van rayadas; sus letras están en la lista de cortes.
plan-whole = Todo el andador visto desde arriba{ $scale }.
plan-last = Plano de colocación, parte { $part } de { $parts }: de { $from } a { $to }{ $scale }. Las piezas cortadas van rayadas; sus letras están en la lista de cortes.
laying-parts = Plano de colocación por partes
match-line = línea de empalme { $letter }
cut-list = Lista de cortes
letter = Letra
pieces = Piezas
how-cut = Cómo
length = Largo
width = Ancho
sides = Lados en orden
of-edge = borde
of-field = campo
edge-left = borde izquierdo
edge-right = borde derecho
edge-at-door = borde en la puerta
edge-at-far-end = borde en el extremo
kind-whole = entero
kind-three-quarter = tres cuartos
kind-half = medio
kind-cut = cortado más corto
kind-ripped = cortado más angosto
kind-tapered = cortado en cuña
kind-shaped = cortado con forma
pieces-whole = { $pieces ->
    [one] 1 entero
   *[other] { $pieces } enteros
}
pieces-three-quarter = { $pieces ->
    [one] 1 de tres cuartos
   *[other] { $pieces } de tres cuartos
}
pieces-half = { $pieces ->
    [one] 1 medio
   *[other] { $pieces } medios
}
pieces-cut = { $pieces ->
    [one] 1 cortado más corto
   *[other] { $pieces } cortados más cortos
}
pieces-ripped = { $pieces ->
    [one] 1 cortado más angosto
   *[other] { $pieces } cortados más angostos
}
pieces-tapered = { $pieces ->
    [one] 1 cortado en cuña
   *[other] { $pieces } cortados en cuña
}
pieces-shaped = { $pieces ->
    [one] 1 cortado con forma
   *[other] { $pieces } cortados con forma
}
part = Parte
sawing = Cortes, con los sobrantes vueltos a usar
sawn-across = { $bricks ->
    [one] 1 ladrillo cortado
   *[other] { $bricks } ladrillos cortados
} a lo ancho, cada uno en las piezas de un renglón
sawn-along = { $bricks ->
    [one] 1 ladrillo cortado
   *[other] { $bricks } ladrillos cortados
} a lo largo, cada uno en las piezas de un renglón
bricks = Ladrillos
sawn-into = En
laying-order = Orden de colocación
course = Hilada
what-is-laid = Lo que se coloca, uno tras otro
first-at = centro del primero en
and-more-courses = { $courses ->
    [one] Y 1 hilada más, que se coloca como muestra el plano.
   *[other] Y { $courses } hiladas más, que se colocan como muestra el plano.
}

# Puntos de control
hold-points = Puntos de control
hold-note = Una etapa se cierra con lecturas correctas, o con un motivo y las iniciales. La siguiente la espera.
cautions-as = Las mismas precauciones que en: { $stage }.
read = Lectura
initials = Iniciales
tolerance = Correcto dentro de
stage-lift-brick = Levantar el ladrillo
stage-dig = Excavar, afinar y compactar el fondo
stage-fabric = Geotextil
stage-lift = Capa { $number }
stage-forms = Tablas de cimbra
stage-edge = Ladrillo de borde
stage-restraint = Chaflán o perfil de borde
stage-riser = Escalón { $number }
stage-setting-bed = Cama de arena
stage-field = Campo
stage-jointing = Juntas
stage-hand-over = Entrega
check-level = { $surface } en { $station }
check-level-beside = { $surface } en { $station }, { $offset } a la { $side }
check-level-side = { $surface } en { $station }, { $side }
at-the-door-itself = la puerta
check-lift-loose = Capa { $number } recién vaciada, donde es más gruesa
check-lift-passes = Pasadas sobre la capa { $number }
check-stage-before = "{ $stage }" se cierra antes
check-straightedge-base = Hueco bajo una regla de { $long } sobre la base
check-straightedge-brick = Hueco bajo una regla de { $long } sobre el ladrillo
check-lippage = Desnivel de un ladrillo al siguiente
check-joint-width = Ancho de una junta
check-joint-fill = Cuánto queda la arena de la junta por debajo de la cara
check-bond-line = Cuánto se aparta una línea de juntas de un cordel de { $long }
check-above-inlet = Cuánto sobresale el ladrillo sobre una rejilla de desagüe
within = { $high } arriba, { $low } abajo
at-most = a lo más { $most }
by-hand = No se pide ninguna lectura: se revisa y se cierra a mano.
closed-by = Cerró, fecha
reason = Motivo, si no todo está correcto

stage-caution-lift-close = Levante el ladrillo pegado al cuerpo y con las piernas, pocos a la vez; guantes y puntera de seguridad.
stage-caution-old-jointing = El ladrillo y la junta vieja sueltan polvo seco al limpiarlos a golpes: mójelos y póngase con el viento a la espalda.
stage-caution-services = No se excava antes de localizar y marcar las instalaciones enterradas; en Estados Unidos llame al 811 con unos días de anticipación. Dentro de la zona marcada se excava a mano.
stage-caution-trench = El costado de una zanja se puede derrumbar. Si da cualquier señal de ello, o tiene 5 ft de hondo, nadie entra antes de que lo vea una persona competente y de que esté apuntalado o con talud; desde 4 ft debe haber una salida a menos de 25 ft.
stage-caution-spoil = La tierra y la piedra quedan por lo menos a 2 ft del borde de la excavación.
stage-caution-fabric = Corte el geotextil alejando la navaja del cuerpo y sujételo antes de que se lo lleve el viento.
stage-caution-plate = La placa sacude manos y brazos y hace mucho ruido: protección para los oídos, guantes, turnos con otra persona.
stage-caution-plate-lift = La placa la levantan dos personas. Se apaga antes de arreglarle cualquier cosa, y no trabaja donde se encierra el gas de su escape.
stage-caution-dry-stone = La piedra seca es polvo: mójela antes de vaciarla y rastrillarla.
stage-caution-stakes = Las estacas bajan más que la excavación: clávelas solo donde se localizaron las instalaciones.
stage-caution-pins = Cubra o corte las estacas y varillas del cordel que sobresalgan donde alguien pueda caer encima.
stage-caution-kneel = Levante el ladrillo pegado al cuerpo; arrodíllese sobre una rodillera.
stage-caution-cut-wet = Cortar ladrillo levanta polvo de sílice: corte con agua corriendo sobre el disco; ojos y oídos protegidos.
stage-caution-concrete = El concreto fresco quema la piel: guantes, botas, manga larga y lentes de seguridad; lávese de inmediato con mucha agua.
stage-caution-cement = El cemento seco es polvo que daña los pulmones: vacíe los sacos desde abajo y fuera del viento.
stage-caution-bags = Los sacos de 80 lb los levantan dos personas.
stage-caution-spikes = Los clavos bajan más que la excavación: clávelos solo donde se localizaron las instalaciones; lentes de seguridad.
stage-caution-riser = Un escalón abierto es una caída: cierre el paso hasta que su huella esté colocada.
stage-caution-screed = Enrase desde una tabla, de rodillas sobre una rodillera y con la espalda recta.
stage-caution-cut-dry = Cortar ladrillo levanta polvo de sílice: corte con agua corriendo sobre el disco. En seco no se corta sin cubierta, aspiradora y respirador.
stage-caution-saw = Ojos y oídos protegidos en la cortadora; su cable y su clavija quedan fuera del agua y detrás de un interruptor de falla a tierra.
stage-caution-jointing = La arena de junta seca es polvo: barra a favor del viento y no la sople.
stage-caution-local-office = Las heladas, el desagüe hacia los vecinos y el acceso los juzgan la oficina local de construcción y un profesional con licencia.
stage-caution-local = El código local, las reglas de la obra y las de los profesionales con licencia van antes que todo esto.
