# Lo que lee un trabajador al preparar una estación. A machine wrote this; nobody has reviewed it.
worker-band = Trabajador electoral
step-place = Paso { $step } de { $steps }
worker-bar-back = Atrás
worker-bar-next = Siguiente
worker-bar-save = Guardar
worker-bar-done = Listo

election-heading = Elija la elección
election-line = Elija la elección sellada que le dio la oficina.
election-not-found = No se encontró ninguna elección sellada. Conecte la memoria de la oficina y busque otra vez.
election-keep = Dejar la que tiene esta estación
election-kept = la que tiene esta estación
election-checking-heading = Comprobando la elección …
election-checking = Puede tardar un minuto. No quite la memoria.
election-compare-heading = ¿Es esta elección?
election-sealed-by = { $count ->
    [one] Sellada por { $count } funcionario: { $names }
   *[other] Sellada por { $count } funcionarios: { $names }
}
election-compare = Lea estos grupos en voz alta. Compare cada uno con el papel de la oficina.
election-differs = Si uno es distinto, regrese y llame a la oficina electoral.
election-same = Todos son iguales
keys-compare-heading = ¿Es esta la lista de claves de los funcionarios?
keys-compare-line = Solo los funcionarios de esta lista pueden sellar una elección para esta estación.
election-refused-heading = Esta elección no se puede usar
election-unread = No se pudo leer el archivo.
election-unread-do = Revise la memoria. Luego regrese y elíjala otra vez.
election-damaged = El archivo no está completo, o no es una elección sellada.
election-damaged-do = Cópielo otra vez desde la oficina electoral.
election-changed = El archivo se cambió después de sellarlo.
election-changed-do = No lo use. Llame a la oficina electoral.
election-untrusted = La selló alguien en quien esta estación no confía.
election-untrusted-do = No la use. Llame a la oficina electoral.
election-too-few = La han sellado muy pocos funcionarios.
election-too-few-do = Pida a la oficina electoral que la sellen más funcionarios.
election-unusable = Está sellada, pero esta estación no puede usar lo que contiene.
election-unusable-do = Llame a la oficina electoral. Allí su programa dice por qué.

card-heading = Mida esta pantalla
card-hold = Ponga una tarjeta bancaria o una licencia de conducir contra el recuadro.
card-match = Haga el recuadro tan ancho y tan alto como la tarjeta. De él dependen todos los tamaños de letra.
card-size = Medida: { $inches } pulgadas de esquina a esquina, { $width } por { $height } milímetros.
card-out-of-range = Una pantalla de { $inches } pulgadas no sirve: las boletas necesitan de unas 15 a 32 pulgadas. Mida otra vez.
card-wider = Más ancho
card-narrower = Más angosto
card-much-wider = Mucho más ancho
card-much-narrower = Mucho más angosto

switch-first-heading = El primer pulsador
switch-first-press = Pulse el primer pulsador: el que avanza.
switch-second-heading = El segundo pulsador
switch-second-press = Pulse el segundo pulsador: el que elige.
switch-any-road = Puede ser una tecla, un botón del ratón o un botón de un mando.
switch-escape = Para usar esta pantalla, toque sus botones. La tecla Escape regresa.
switch-again = Se oyó: { $button }. Oprímalo una vez más.
switch-other = Esta vez fue { $button }. Pulse dos veces el pulsador que quiere.
switch-same = Ese es el primer pulsador ({ $button }). Pulse el otro.
switch-skip = Dejar los pulsadores como están
switch-restart = Empezar otra vez con el primer pulsador

try-heading = Pruebe los dos pulsadores
try-press = Pulse cada pulsador al menos una vez.
try-first = Primer pulsador, { $button }: { $count ->
    [0] todavía no
    [one] pulsado una vez
   *[other] pulsado { $count } veces
}
try-second = Segundo pulsador, { $button }: { $count ->
    [0] todavía no
    [one] pulsado una vez
   *[other] pulsado { $count } veces
}
try-unknown = { $button } no es ninguno de los dos pulsadores.

printer-heading = La impresora
printer-line = Elija la impresora de las boletas. La autoprueba imprime una hoja.
scanner-heading = El lector
scanner-line = Elija qué lee las hojas impresas: con alimentador, de las dos caras si lo hay.
headphones-heading = Los audífonos
headphones-line = Elija dónde están conectados los audífonos.
headphones-usual = Lo que usa esta computadora
device-now = Elegido: { $name }
device-none = Ninguno por ahora (una demostración no lo necesita)
device-looking = Buscando. Espere, por favor.
device-failed = No se pudo buscar. Revise el registro de la estación y busque otra vez.
device-not-found = No se encontró ninguno. Conéctelo y enciéndalo, y busque otra vez.
device-more = Otros
device-look = Buscar otra vez
loudness-heading = Con qué volumen empieza
loudness-line = Póngase los audífonos. Cada votante puede subir o bajar el volumen.
loudness-now = Las visitas empiezan con el volumen { $step } de { $steps }.
loudness-louder = Más fuerte
loudness-softer = Más bajo
loudness-hear = Oírlo
loudness-silent = No se pudo tocar ningún tono. Revise los audífonos, o regrese y elija otros.

keep-heading = ¿Guardar esto?
keep-switches = Primer pulsador: { $first }. Segundo pulsador: { $second }.
keep-switches-usual = Los pulsadores quedan como están.
keep-printer = Impresora: { $name }
keep-scanner = Lector: { $name }
keep-headphones = Audífonos: { $name }
keep-election = Elección: { $name }
keep-wait = Guardando. Espere, por favor.
keep-failed = No se pudo guardar. Vea el mensaje en la ventana o en el registro de la estación y elija Guardar otra vez.
kept-heading = Guardado
kept-line = Inicie la estación de nuevo para usarlo.

# Cómo se llama un botón.
button-key = la tecla { $name }
button-mouse-left = el botón izquierdo del ratón
button-mouse-right = el botón derecho del ratón
button-mouse-middle = el botón central del ratón
button-pad = el botón «{ $name }» del mando
button-up = flecha arriba
button-down = flecha abajo
button-left = flecha izquierda
button-right = flecha derecha
button-space = barra espaciadora
button-sign = «{ $name }»

# A worker's day.
worker-plain = { $text }
band-closed = { $place }, estación { $number }. Votación cerrada
band-test = { $place }, estación { $number }. PRUEBA: las boletas no cuentan
band-official = { $place }, estación { $number }. Oficial: las boletas cuentan
home-closed-heading = La votación está cerrada
home-open-heading = La votación está abierta
home-suspended-heading = La votación está suspendida
home-election = { $election }, { $date }
home-not-sealed = Esta elección no está sellada. Solo sirve para pruebas.
home-not-tested = Esta estación no se ha probado desde que se encendió.
home-test-passed = Autoprueba: todos los pasos se aprobaron.
home-test-failed = Autoprueba: un paso falló. No abra la votación aquí. Llame a la oficina electoral.
home-test-skipped = Autoprueba: se omitió un paso. Pruébelo o pregunte a la oficina electoral.
home-test = Probar esta estación
home-open = Abrir la votación
home-shut-down = Apagar
home-voter = Siguiente votante
home-paper = Papel
home-suspend = Suspender la votación
home-close = Cerrar la votación
home-resume = Continuar la votación
count-ballots = Boletas impresas: { $ballots }. Anuladas: { $spoiled }.
count-visits = Visitas empezadas: { $started }. Terminadas: { $finished }. Interrumpidas: { $stopped }.
count-sheets = Hojas impresas: { $sheets }. Hojas puestas: { $paper }.
who-heading = ¿Quién es usted?
who-second-heading = ¿Quién es la segunda persona?
who-two = Esto lo hacen dos personas juntas. Una de ellas es la responsable.
who-nobody = No hay nadie que pueda hacer esto con usted.
who-nobody-do = Debe haber dos personas en la lista, una de ellas responsable. Llame a la oficina electoral.
who-more = Otros nombres
code-heading = { $name }: su código
code-first = La primera de dos personas.
code-second = La segunda persona. La primera se queda aquí.
code-typed = { $count ->
    [0] Escriba su código: 6 cifras o más.
    [one] { $count } cifra escrita.
   *[other] { $count } cifras escritas.
}
code-checking = Comprobando …
code-wrong = Ese no es el código. Nada ha cambiado. Intente otra vez.
code-wait = Hubo demasiados códigos incorrectos. Espere { $seconds } segundos. Luego intente otra vez.
code-other = Soy otra persona
type-space = esp.
type-delete = Borrar lo último
typed-nothing = Aún no hay nada escrito.
typed-count = Escrito: { $count }
typed-text = Escrito: { $text }
purpose-heading = ¿Para qué se abre la votación?
purpose-line = En una prueba cada boleta dice “prueba” y no cuenta.
purpose-not-sealed = Esta elección no está sellada. Solo es posible una prueba.
purpose-is-test = La oficina electoral hizo esta elección como prueba. Solo es posible una prueba.
purpose-test = Una prueba
purpose-official = La elección oficial
open-paper-heading = ¿Cuántas hojas de papel hay en la impresora?
seals-heading = Número de un sello
seals-more = Otro sello
seals-none = No hay sellos anotados.
seals-noted = Sellos: { $seals }
open-test-heading = ¿Abrir una PRUEBA?
open-official-heading = ¿Abrir la elección OFICIAL?
open-place = { $place }, estación { $number }
open-zero = Boletas impresas: 0. Las dos personas ven que es cero.
open-paper-line = Hojas en la impresora: { $paper }
open-not-tested = No todos los pasos de la autoprueba se aprobaron. Puede continuar si la oficina electoral lo permite.
open-now = Abrir
open-done = La votación está abierta. Firmen el informe y expongan una copia.
find-heading = ¿Qué boleta recibe el votante?
find-type = Escriba el precinto, el partido, o el número y la calle.
find-nothing = Nada coincide. Borre algunas letras o pregunte a la persona responsable.
find-more = { $count ->
    [one] { $count } más coincide. Siga escribiendo.
   *[other] { $count } más coinciden. Siga escribiendo.
}
found-heading = ¿Empezar con este votante?
found-do = Léaselo al votante. Luego empiece y aléjese.
found-start = Empezar
visit-heading = Hay un votante en esta estación
visit-finished = El votante ha terminado.
visit-not-opened = No se pudo abrir la pantalla del votante. No se imprimió nada. Vea el mensaje en el registro de la estación e intente otra vez.
entry-heading = La boleta del votante está oculta
entry-line = Nadie la ve y no se dice nada. No pregunte qué eligió el votante.
entry-go-on = Devolver la estación al votante
entry-stop = Detener esta visita
ending-heading = La visita está terminando …
stop-heading = ¿Por qué detiene la visita?
stop-line = Las opciones del votante se borrarán de esta estación.
stop-wish = El votante lo pidió
stop-left = El votante se había ido
stop-gone = Las opciones del votante ya no están en esta estación.
stop-paper-heading = ¿Dónde está el papel?
face-down = Mantenga cada hoja boca abajo. No la lea.
stop-paper-spoil = Una boleta dejada aquí va al sobre de boletas anuladas.
stop-paper-out = Esta estación imprimió una boleta. Búsquela.
paper-nowhere = No hay papel, o lo tiene el votante
paper-tray = En la impresora
paper-reader = En el lector
stop-done = La visita se detuvo. Aquí no quedó ninguna hoja.
stop-done-spoiled = La visita se detuvo y la boleta se cuenta como anulada. Póngala en el sobre, boca abajo.
search-power-heading = Se cortó la electricidad mientras había un votante
search-died-heading = La pantalla del votante se cerró sola
found-count-heading = ¿Cuántas hojas hay ahí?
found-count-other = Ya se contaron hojas de este votante: anuladas, o sacadas al atascarse el papel. Cuente solo las otras: 0 si no hay.
search-do = Busque una hoja en la impresora y en el lector. ¿Dónde está?
search-again = El votante puede empezar otra vez. Aquí no se guardó nada.
paper-heading = Papel
paper-jam-do = Si hay papel atascado: abra la impresora, sáquelo despacio y ciérrela.
paper-add = Puse papel
paper-jam-cleared = Saqué papel atascado
paper-jam-done = Anotado. Lo que sacó va al sobre de boletas anuladas.
jam-count-heading = ¿Cuántas hojas sacó?
jam-count-do = Cuente también las hojas enteras que salieron antes: todo se imprime otra vez. 0 si no hay ninguna.
paper-add-heading = ¿Cuántas hojas puso?
paper-added = Anotado.
suspend-heading = ¿Suspender la votación?
suspend-do = Hágalo de noche, o cuando nadie pueda votar aquí por un rato.
suspend-after = Dos personas con sus códigos continúan después. Las cuentas se conservan.
suspend-now = Suspender
close-heading = ¿Cerrar la votación?
close-left-heading = ¿Cuántas hojas quedan en la impresora?
close-left-do = Saque el papel y cuéntelo, dos personas juntas.
close-left = Hojas que quedan: { $count }
close-now = Cerrar
closed-heading = La votación está cerrada
closed-sign = Firmen las dos copias del informe. Una es para los observadores.
closed-print-again = Imprimir el informe otra vez
closed-export = Copiar el registro para la oficina
reconcile-even = Todo el papel cuadra.
reconcile-missing = { $count ->
    [one] Falta { $count } hoja.
   *[other] Faltan { $count } hojas.
} Cuente otra vez. Si sigue igual, anótelo en el informe.
reconcile-over = { $count ->
    [one] Sobra { $count } hoja.
   *[other] Sobran { $count } hojas.
} Cuente otra vez. Si sigue igual, anótelo en el informe.
report-done = El informe está impreso, dos copias.
report-coming = Se está imprimiendo un informe. Espere a que salga. Si no sale, revise la impresora.
report-failed = El informe no se imprimió. Revise la impresora. También está guardado en la carpeta de la estación.
export-done = El registro está copiado.
export-failed = No se pudo copiar el registro. Sigue entero en la estación. Revise la unidad e intente otra vez.
halted-heading = Deje de usar esta estación
halted-full = Su almacenamiento está lleno: no se puede escribir el registro.
halted-other = No se puede escribir su registro.
halted-do = Envíe a los votantes a otra estación. Llame a la oficina electoral. Nada de lo registrado se ha perdido.
test-heading = Prueba: { $step }
test-running = La estación está probando. Espere.
test-fails = No, falla
test-skip = Omitir este paso
test-done-heading = La autoprueba terminó
test-counts = Aprobados: { $passed }. Fallidos: { $failed }. Omitidos: { $skipped }.
test-result = { $step }: { $result }. { $why }
outcome-passed = aprobado
outcome-failed = falló
outcome-skipped = omitido
step-sealed-election = elección sellada
step-log = registro
step-clock = reloj
step-storage = almacenamiento
step-voice = voz en cada idioma
step-printer-sheet = impresora, cada óvalo
step-scanner = lector, cada óvalo
step-screen-colors = colores de la pantalla
step-touch-grid = pantalla táctil
step-left-ear = sonido en el oído izquierdo
step-right-ear = sonido en el oído derecho
step-switches = pulsadores
step-keys = teclas
touch-all = { $count ->
    [one] Toque la última casilla.
   *[other] Toque cada casilla: faltan { $count }.
}
touch-fails = Si alguna no responde, pulse la tecla Escape.
colors-word = legible
switches-press = Pulse los dos pulsadores.
switch-to-press = Pulsador { $switch }: aún sin pulsar
switch-was-pressed = Pulsador { $switch }: funciona
switch-fails = Falla (tecla Escape)
keys-press = Pulse una vez cada una de estas teclas.
keys-left = Faltan: { $keys }.
keys-fail = Si alguna no responde, pulse otra tres veces. Para usar los botones de aquí, tóquelos: sin teclado, omita este paso.
ear-left = Póngase los audífonos. Un tono suena solo en el oído izquierdo.
ear-right = Póngase los audífonos. Un tono suena solo en el oído derecho.
ear-yes = Sí, lo oigo ahí
ear-again = Hacerlo sonar otra vez
colors-look = Mire los cuatro cuadros. ¿Puede leer la palabra en cada uno?
colors-yes = Sí, en los cuatro
why-worker-says = Así lo dice quien prueba.
why-not-sealed = La elección no está sellada.
why-not-whole = No está como se hizo. Llame a la oficina electoral.
why-clock-far = Está lejos del día de la elección. Compárelo con otro reloj. Si está bien, pregunte a la oficina electoral.
why-no-room = Hay muy poco espacio, o no se puede escribir.
why-no-voice = Un idioma no tiene voz ni todas las grabaciones.
why-no-speech = No hay voz. Revise los audífonos.
why-no-paper = No hay papel. Ponga más.
why-paper-stuck = Hay papel atascado. Sáquelo.
why-no-answer = El aparato no responde. Revise su cable.
why-no-sheet = El lector no recibió una hoja que pueda leer.
why-ovals-differ = Algunos óvalos se leyeron mal.
why-needs-other = Otro paso no se aprobó.

# A report on paper.
report-test = Autoprueba
report-opening = Votación abierta
report-closing = Votación cerrada
report-state-test = PRUEBA
report-state-official = OFICIAL
report-election = Elección
report-place = Lugar
report-station = Estación
report-time = Cuándo
report-seals = Sellos de las puertas
report-sealed = Sellada por
report-not-sealed = nadie: solo para pruebas
report-sheets = Hojas impresas
report-ballots = Boletas impresas
report-spoiled = Boletas anuladas
report-test-sheets = Hojas de prueba
report-jams = Veces que se atascó el papel
report-started = Visitas empezadas
report-finished = Visitas terminadas
report-stopped = Visitas interrumpidas
report-lifetime = Hojas en total de esta estación
report-paper-in = Hojas puestas
report-reports = Hojas usadas por los informes
report-paper-left = Hojas sobrantes
report-digest = Última línea del registro ({ $count } líneas)
report-not-certified = Este equipo no está certificado. La ley electoral local y sus funcionarios deciden qué se puede usar.
report-few = Menos de 10 votantes terminaron aquí. Conviene invitar a otras personas a usar esta estación, para que ninguna boleta se distinga.
report-first = Responsable
report-second = Segunda persona
