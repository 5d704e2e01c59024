<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="es" sourcelanguage="en">
  <context>
    <name>biofeedback</name>
    <message>
      <source>    {name}
      archived</source>
      <translation>    {name}
      archivado</translation>
    </message>
    <message>
      <source>    {name}
      not followed, was at: {stage}</source>
      <translation>    {name}
      no se sigue, estaba en: {stage}</translation>
    </message>
    <message>
      <source> (now)</source>
      <translation> (ahora)</translation>
    </message>
    <message>
      <source> and {number} more</source>
      <translation> y {number} más</translation>
    </message>
    <message>
      <source> of each side</source>
      <translation> de cada lado</translation>
    </message>
    <message>
      <source> of {group}</source>
      <translation> de {group}</translation>
    </message>
    <message>
      <source> of {who}</source>
      <translation> de {who}</translation>
    </message>
    <message>
      <source> tempo</source>
      <translation> de ritmo</translation>
    </message>
    <message>
      <source>% of the centre</source>
      <translation>% del centro</translation>
    </message>
    <message>
      <source>% of the range</source>
      <translation>% del rango</translation>
    </message>
    <message>
      <source>% of the reference</source>
      <translation>% de la referencia</translation>
    </message>
    <message>
      <source>% of {force:.4g} N</source>
      <translation>% de {force:.4g} N</translation>
    </message>
    <message>
      <source>(a tolerance was assumed for the masses; weigh them)</source>
      <translation>(se supuso una tolerancia para las masas; pesarlas)</translation>
    </message>
    <message>
      <source>(the known forces are taken as exact: their uncertainty was not given)</source>
      <translation>(las fuerzas conocidas se toman como exactas: su incertidumbre no se dio)</translation>
    </message>
    <message>
      <source>(the resolution is left out: not given)</source>
      <translation>(se omite la resolución: no se dio)</translation>
    </message>
    <message>
      <source>(the smallest load stands for no load)</source>
      <translation>(la carga menor vale como sin carga)</translation>
    </message>
    <message>
      <source>(the uncertainty of the known forces is left out: not given)</source>
      <translation>(se omite la incertidumbre de las fuerzas conocidas: no se dio)</translation>
    </message>
    <message>
      <source>+ is right heavier</source>
      <translation>+ es más peso a la derecha</translation>
    </message>
    <message>
      <source>+{n} day</source>
      <translation>+{n} día</translation>
    </message>
    <message>
      <source>+{n} days</source>
      <translation>+{n} días</translation>
    </message>
    <message>
      <source>, a first test</source>
      <translation>, una primera prueba</translation>
    </message>
    <message>
      <source>, over {seconds:.0f} s.</source>
      <translation>, en {seconds:.0f} s.</translation>
    </message>
    <message>
      <source>, required</source>
      <translation>, exigido</translation>
    </message>
    <message>
      <source>, seen at {seen_hz:.1f} Hz</source>
      <translation>, visto a {seen_hz:.1f} Hz</translation>
    </message>
    <message>
      <source>, taken at {time}</source>
      <translation>, tomado a las {time}</translation>
    </message>
    <message>
      <source>. At this rate it shows as an alias ({alias}), where a tremor may be</source>
      <translation>. A esta frecuencia aparece como alias ({alias}), donde puede haber un temblor</translation>
    </message>
    <message>
      <source>0 complete</source>
      <translation>0 completas</translation>
    </message>
    <message>
      <source>0 to 10</source>
      <translation>0 a 10</translation>
    </message>
    <message>
      <source>1 block not drawn</source>
      <translation>1 bloque sin dibujar</translation>
    </message>
    <message>
      <source>1 channel</source>
      <translation>1 canal</translation>
    </message>
    <message>
      <source>1 damaged frame ({size} bytes) could not be read</source>
      <translation>1 trama dañada ({size} bytes) no se pudo leer</translation>
    </message>
    <message>
      <source>1 earlier change is in the logbook.</source>
      <translation>1 cambio anterior está en el registro.</translation>
    </message>
    <message>
      <source>1 lapse</source>
      <translation>1 salida</translation>
    </message>
    <message>
      <source>1 note is</source>
      <translation>1 nota está</translation>
    </message>
    <message>
      <source>1 person</source>
      <translation>1 persona</translation>
    </message>
    <message>
      <source>1 residual</source>
      <translation>1 residuo</translation>
    </message>
    <message>
      <source>1 s, N</source>
      <translation>1 s, N</translation>
    </message>
    <message>
      <source>1 sample missing in between</source>
      <translation>falta 1 muestra en medio</translation>
    </message>
    <message>
      <source>1 saved rep</source>
      <translation>1 repetición guardada</translation>
    </message>
    <message>
      <source>1 trial</source>
      <translation>1 intento</translation>
    </message>
    <message>
      <source>1 value</source>
      <translation>1 valor</translation>
    </message>
    <message>
      <source>1 visit</source>
      <translation>1 visita</translation>
    </message>
    <message>
      <source>100 % is</source>
      <translation>El 100 % es</translation>
    </message>
    <message>
      <source>100 % is the</source>
      <translation>El 100 % es</translation>
    </message>
    <message>
      <source>100 % is the best of “{other_task}” ({looked_for})</source>
      <translation>El 100 % es lo mejor de «{other_task}» ({looked_for})</translation>
    </message>
    <message>
      <source>100 % is the force from before the injury</source>
      <translation>El 100 % es la fuerza de antes de la lesión</translation>
    </message>
    <message>
      <source>100 % is the number typed for the side</source>
      <translation>El 100 % es el número escrito para el lado</translation>
    </message>
    <message>
      <source>100 % is {factor:g} × the weight of the body</source>
      <translation>El 100 % es {factor:g} × el peso del cuerpo</translation>
    </message>
    <message>
      <source>100 % is {origin} ({looked_for})</source>
      <translation>El 100 %: {origin} ({looked_for})</translation>
    </message>
    <message>
      <source>100 % is {typed_n} N (typed{date})</source>
      <translation>El 100 % es {typed_n} N (escrito{date})</translation>
    </message>
    <message>
      <source>100 % of {task}, {side}: {force:.1f} N ({definition}, {origin}, {day})</source>
      <translation>100 % de {task}, {side}: {force:.1f} N ({definition}, {origin}, {day})</translation>
    </message>
    <message>
      <source>5 to 100 %</source>
      <translation>5 a 100 %</translation>
    </message>
    <message>
      <source>95 % interval of the {which}: {low:.2f} to {high:.2f} {unit}</source>
      <translation>intervalo del 95 % del {which}: de {low:.2f} a {high:.2f} {unit}</translation>
    </message>
    <message>
      <source>95 % of changes from the first visit within ± {mdc:.2g} {unit} are noise (n = {visits} visits)</source>
      <translation>El 95 % de los cambios desde la primera visita dentro de ± {mdc:.2g} {unit} es ruido (n = {visits} visitas)</translation>
    </message>
    <message>
      <source>; body mass {kg} kg ({date})</source>
      <translation>; masa corporal {kg} kg ({date})</translation>
    </message>
    <message>
      <source>; never above {ceiling_n} N</source>
      <translation>; nunca por encima de {ceiling_n} N</translation>
    </message>
    <message>
      <source>; never above {ceiling_pct} %</source>
      <translation>; nunca por encima de {ceiling_pct} %</translation>
    </message>
    <message>
      <source>A (N)</source>
      <translation>A (N)</translation>
    </message>
    <message>
      <source>A board without a serial number cannot be told from another.</source>
      <translation>Una placa sin número de serie no se distingue de otra.</translation>
    </message>
    <message>
      <source>A change of one point on one day is not a finding.</source>
      <translation>Un cambio de un punto en un día no es un hallazgo.</translation>
    </message>
    <message>
      <source>A circle is a person (n = {people}). Nineteen of twenty differences are expected between the limits, where differences do not grow with the level.</source>
      <translation>Un círculo es una persona (n = {people}). Se esperan diecinueve de veinte diferencias entre los límites, si las diferencias no crecen con el nivel.</translation>
    </message>
    <message>
      <source>A correlation is high where people differ much, and is not that of another group. The error of measurement is what to hold a change against.</source>
      <translation>Una correlación es alta donde las personas difieren mucho, y no es la de otro grupo. Un cambio se compara con el error de medida.</translation>
    </message>
    <message>
      <source>A curve of degree 2 must not be carried so far; fit a line or add loads.</source>
      <translation>Una curva de grado 2 no debe prolongarse tanto; ajustar una recta o añadir cargas.</translation>
    </message>
    <message>
      <source>A date such as 2026-01-31; empty for no limit.</source>
      <translation>Una fecha como 2026-01-31; vacío: sin límite.</translation>
    </message>
    <message>
      <source>A day is under way at the desk. End that visit first.</source>
      <translation>Hay un día en curso en la mesa. Terminar antes esa visita.</translation>
    </message>
    <message>
      <source>A digit answers, + is 10, Del takes it back</source>
      <translation>Una cifra responde, + es 10, Supr la retira</translation>
    </message>
    <message>
      <source>A fit through zero needs one in each run.</source>
      <translation>Un ajuste por cero necesita una en cada vuelta.</translation>
    </message>
    <message>
      <source>A fresh fracture, tendon rupture or repair: within the surgeon's limits.</source>
      <translation>Fractura reciente, rotura o reparación de tendón: dentro de los límites del cirujano.</translation>
    </message>
    <message>
      <source>A group says nothing sure of one athlete. Newtons alone do not compare people: mass, lever and angle matter. What it means, you and the treating clinician decide.</source>
      <translation>Un grupo no dice nada seguro de un atleta. Los newtons solos no comparan personas: importan la masa, la palanca y el ángulo. Lo que significa lo deciden usted y el clínico responsable.</translation>
    </message>
    <message>
      <source>A lapse: where the clock stood when the band was left.</source>
      <translation>Una salida: dónde estaba el reloj al dejar la banda.</translation>
    </message>
    <message>
      <source>A line does not fit: {figures}; so degree 2.</source>
      <translation>Una recta no se ajusta: {figures}; por eso grado 2.</translation>
    </message>
    <message>
      <source>A line is enough: it meets all points. {repeat}</source>
      <translation>Basta una recta: pasa por todos los puntos. {repeat}</translation>
    </message>
    <message>
      <source>A line is enough: {figures}.</source>
      <translation>Basta una recta: {figures}.</translation>
    </message>
    <message>
      <source>A line is enough: {figures}. {repeat}</source>
      <translation>Basta una recta: {figures}. {repeat}</translation>
    </message>
    <message>
      <source>A line: there are too few loads to ask for more.</source>
      <translation>Una recta: hay muy pocas cargas para pedir más.</translation>
    </message>
    <message>
      <source>A little more</source>
      <translation>Un poco más</translation>
    </message>
    <message>
      <source>A lowering task has no maximal trials. Choose its isometric partner.</source>
      <translation>Un descenso no tiene intentos máximos. Elegir su pareja isométrica.</translation>
    </message>
    <message>
      <source>A muscle strain in its first two or three days; an infection or fever.</source>
      <translation>Distensión muscular en los primeros dos o tres días; infección o fiebre.</translation>
    </message>
    <message>
      <source>A new backup in the same folder is sealed; delete what is not needed.</source>
      <translation>Una copia nueva en la misma carpeta queda cifrada; lo que no haga falta, mejor borrarlo.</translation>
    </message>
    <message>
      <source>A new peak is kept; the typed floor stays.</source>
      <translation>Se guardó un pico nuevo; el suelo escrito se queda.</translation>
    </message>
    <message>
      <source>A new plan, from what stands beside</source>
      <translation>Un plan nuevo, a partir de lo que se ve al lado</translation>
    </message>
    <message>
      <source>A new plan; it is kept, and followed, when you save it.</source>
      <translation>Un plan nuevo; al guardarlo queda registrado y se sigue.</translation>
    </message>
    <message>
      <source>A number in brackets tells rows of one name apart: tasks of one name, in the order of the visit.</source>
      <translation>Un número entre paréntesis distingue filas del mismo nombre: tareas de un mismo nombre, en el orden de la visita.</translation>
    </message>
    <message>
      <source>A person has one row, with a column for each trial.</source>
      <translation>Una persona tiene una fila, con una columna por intento.</translation>
    </message>
    <message>
      <source>A plan has at least one stage.</source>
      <translation>Un plan tiene al menos una etapa.</translation>
    </message>
    <message>
      <source>A reference cell tells newtons; no gravity is needed.</source>
      <translation>Una célula de referencia da newtons; no hace falta la gravedad.</translation>
    </message>
    <message>
      <source>A rep starts by</source>
      <translation>Una repetición empieza por</translation>
    </message>
    <message>
      <source>A result could not be entered into the logbook because of a fault in this program; the recording holds it.</source>
      <translation>Un resultado no se pudo anotar en el registro por un fallo de este programa; la grabación lo tiene.</translation>
    </message>
    <message>
      <source>A result could not be entered into the logbook: {error}</source>
      <translation>Un resultado no se pudo anotar en el registro: {error}</translation>
    </message>
    <message>
      <source>A score is missing in {lines}: left out of the correlations and the limits of agreement.</source>
      <translation>Falta un valor en {lines}: no cuenta para las correlaciones ni los límites de concordancia.</translation>
    </message>
    <message>
      <source>A score is missing in {lines}: left out of the correlations.</source>
      <translation>Falta un valor en {lines}: no cuenta para las correlaciones.</translation>
    </message>
    <message>
      <source>A score is not above zero, or nearly so: there is no error in per cent.</source>
      <translation>Un valor no es mayor que cero, o apenas: no hay error en porcentaje.</translation>
    </message>
    <message>
      <source>A second start goes on.</source>
      <translation>Un segundo inicio sigue adelante.</translation>
    </message>
    <message>
      <source>A set is under way, and no other board can take part in it. Put the first board back, or stop the set and then use this one.</source>
      <translation>Hay una serie en marcha y ninguna otra placa puede entrar en ella. Volver a poner la primera placa, o detener la serie y usar después esta.</translation>
    </message>
    <message>
      <source>A set is under way, or is still being written. Try again after it.</source>
      <translation>Hay una serie en curso, o todavía se está escribiendo. Probar otra vez después.</translation>
    </message>
    <message>
      <source>A set is under way.</source>
      <translation>Hay una serie en curso.</translation>
    </message>
    <message>
      <source>A set is under way. End it first.</source>
      <translation>Hay una serie en curso. Primero hay que terminarla.</translation>
    </message>
    <message>
      <source>A set is under way. Stop it first.</source>
      <translation>Hay una serie en curso. Primero hay que detenerla.</translation>
    </message>
    <message>
      <source>A set is under way: the desk stays as it is.</source>
      <translation>Hay una serie en curso: la mesa queda como está.</translation>
    </message>
    <message>
      <source>A set is under way: {what} stays.</source>
      <translation>Hay una serie en curso: {what} queda igual.</translation>
    </message>
    <message>
      <source>A table: one row a person, one column a trial, names in the first row</source>
      <translation>Una tabla: una fila por persona, una columna por intento, nombres en la primera fila</translation>
    </message>
    <message>
      <source>A test of {time} was done and not kept: {task}, {side}.</source>
      <translation>Una prueba de las {time} se hizo y no se guardó: {task}, {side}.</translation>
    </message>
    <message>
      <source>A trial lasts</source>
      <translation>Un intento dura</translation>
    </message>
    <message>
      <source>A, solid</source>
      <translation>A, continua</translation>
    </message>
    <message>
      <source>A: {a}. B: {b}.</source>
      <translation>A: {a}. B: {b}.</translation>
    </message>
    <message>
      <source>AE</source>
      <translation>EA</translation>
    </message>
    <message>
      <source>AE, absolute error: the mean distance from the centre, without sign.</source>
      <translation>EA, error absoluto: distancia media al centro, sin signo.</translation>
    </message>
    <message>
      <source>About half</source>
      <translation>Cerca de la mitad</translation>
    </message>
    <message>
      <source>About three quarters</source>
      <translation>Cerca de tres cuartos</translation>
    </message>
    <message>
      <source>About {share} % of full effort, built up over 1 to 2 s.</source>
      <translation>Cerca del {share} % del esfuerzo máximo, subiendo en 1 a 2 s.</translation>
    </message>
    <message>
      <source>Above it the low end is proposed</source>
      <translation>Por encima se propone el extremo bajo</translation>
    </message>
    <message>
      <source>Above the ceiling of {n} N.</source>
      <translation>Por encima del techo de {n} N.</translation>
    </message>
    <message>
      <source>Above the floor all the way down</source>
      <translation>Sobre el suelo durante todo el descenso</translation>
    </message>
    <message>
      <source>Above the floor for {above} of {tempo} s</source>
      <translation>Sobre el suelo {above} de {tempo} s</translation>
    </message>
    <message>
      <source>Above the floor for {above} of {tempo} s; the force broke at {broke} s</source>
      <translation>Sobre el suelo {above} de {tempo} s; la fuerza cedió a los {broke} s</translation>
    </message>
    <message>
      <source>Above the sea</source>
      <translation>Sobre el mar</translation>
    </message>
    <message>
      <source>Add</source>
      <translation>Añadir</translation>
    </message>
    <message>
      <source>Add a larger load.</source>
      <translation>Añadir una carga mayor.</translation>
    </message>
    <message>
      <source>Add criterion</source>
      <translation>Añadir criterio</translation>
    </message>
    <message>
      <source>Add loads.</source>
      <translation>Añadir cargas.</translation>
    </message>
    <message>
      <source>Add loads; the empty rig counts as one.</source>
      <translation>Añadir cargas; el equipo vacío cuenta como una.</translation>
    </message>
    <message>
      <source>Add stage</source>
      <translation>Añadir etapa</translation>
    </message>
    <message>
      <source>Advice</source>
      <translation>Consejo</translation>
    </message>
    <message>
      <source>Advise to stop above</source>
      <translation>Aconsejar parar por encima de</translation>
    </message>
    <message>
      <source>After the live filter: what the rules judge.</source>
      <translation>Tras el filtro en vivo: lo que juzgan las reglas.</translation>
    </message>
    <message>
      <source>Against</source>
      <translation>Contra</translation>
    </message>
    <message>
      <source>Against {last} last time: {by} N ({pct} %), {words}.</source>
      <translation>Frente a {last} la última vez: {by} N ({pct} %), {words}.</translation>
    </message>
    <message>
      <source>Age
ms</source>
      <translation>Edad
ms</translation>
    </message>
    <message>
      <source>Age against noise</source>
      <translation>Edad frente a ruido</translation>
    </message>
    <message>
      <source>Age under</source>
      <translation>Edad menor de</translation>
    </message>
    <message>
      <source>All athletes</source>
      <translation>Todos los atletas</translation>
    </message>
    <message>
      <source>All files (*)</source>
      <translation>Todos los archivos (*)</translation>
    </message>
    <message>
      <source>All keys as usual</source>
      <translation>Todas las teclas de origen</translation>
    </message>
    <message>
      <source>All keys, marks and words</source>
      <translation>Todas las teclas, marcas y palabras</translation>
    </message>
    <message>
      <source>All messages, each as a whole</source>
      <translation>Todos los mensajes, cada uno entero</translation>
    </message>
    <message>
      <source>All of the rep</source>
      <translation>Toda la repetición</translation>
    </message>
    <message>
      <source>All points are taken.</source>
      <translation>Todos los puntos están tomados.</translation>
    </message>
    <message>
      <source>All points are taken. Look at the figures, then keep it.</source>
      <translation>Todos los puntos están tomados. Ver las cifras y luego guardar.</translation>
    </message>
    <message>
      <source>All scores are equal: they say nothing of people or of noise.</source>
      <translation>Todos los valores son iguales: no dicen nada de las personas ni del ruido.</translation>
    </message>
    <message>
      <source>All sets at the desk, one after the other</source>
      <translation>Todas las series en la mesa, una tras otra</translation>
    </message>
    <message>
      <source>All sets done</source>
      <translation>Todas las series hechas</translation>
    </message>
    <message>
      <source>All sets of this visit are over.</source>
      <translation>Todas las series de esta visita han terminado.</translation>
    </message>
    <message>
      <source>All there is</source>
      <translation>Todo lo que hay</translation>
    </message>
    <message>
      <source>All times as the rules found them.</source>
      <translation>Todos los tiempos como los hallaron las reglas.</translation>
    </message>
    <message>
      <source>All {samples} samples came, no frame was damaged.</source>
      <translation>Llegaron todas las {samples} muestras, sin tramas dañadas.</translation>
    </message>
    <message>
      <source>Also look at: {fields}.</source>
      <translation>Ver también: {fields}.</translation>
    </message>
    <message>
      <source>Also reps of others than who is here now.</source>
      <translation>También repeticiones de otros atletas.</translation>
    </message>
    <message>
      <source>Altitude</source>
      <translation>Altitud</translation>
    </message>
    <message>
      <source>An empty form</source>
      <translation>Un formulario vacío</translation>
    </message>
    <message>
      <source>An invented example</source>
      <translation>Un ejemplo inventado</translation>
    </message>
    <message>
      <source>An invented example.</source>
      <translation>Un ejemplo inventado.</translation>
    </message>
    <message>
      <source>Another athlete is here: take zero with this limb resting.</source>
      <translation>Otro atleta está aquí: tomar cero con esta extremidad en reposo.</translation>
    </message>
    <message>
      <source>Another board</source>
      <translation>Otra placa</translation>
    </message>
    <message>
      <source>Another board is on the port: no force is read.</source>
      <translation>Hay otra placa en el puerto: no se lee ninguna fuerza.</translation>
    </message>
    <message>
      <source>Another board is on the port: {here}. In use was {known}. No force is read: put that one back, or say that this one is to be used.</source>
      <translation>Hay otra placa en el puerto: {here}. En uso estaba {known}. No se lee ninguna fuerza: volver a poner aquella, o indicar que se use esta.</translation>
    </message>
    <message>
      <source>Another board is on the port: {here}. The set waits for {known}: put it back. To use the other one, stop the set first.</source>
      <translation>Hay otra placa en el puerto: {here}. La serie espera a {known}: volver a ponerla. Para usar la otra, detener antes la serie.</translation>
    </message>
    <message>
      <source>Another board, or another rate or gain: please begin again.</source>
      <translation>Otra placa, u otra frecuencia o ganancia: hay que empezar de nuevo.</translation>
    </message>
    <message>
      <source>Another cell answered with it.</source>
      <translation>Otra célula respondió con ella.</translation>
    </message>
    <message>
      <source>Another cell answered with it: </source>
      <translation>Otra célula respondió con ella: </translation>
    </message>
    <message>
      <source>Another language is used from the next start.</source>
      <translation>El nuevo idioma se usa desde el próximo inicio.</translation>
    </message>
    <message>
      <source>Another program has this logbook open.</source>
      <translation>Otro programa tiene abierto este registro.</translation>
    </message>
    <message>
      <source>Another program may have it; on Linux you may have to be in the group “dialout”.</source>
      <translation>Puede tenerlo otro programa; en Linux quizá haga falta estar en el grupo «dialout».</translation>
    </message>
    <message>
      <source>Another program may hold it; close that, then switch sound on again.</source>
      <translation>Puede tenerlo otro programa; cerrarlo y volver a activar el sonido.</translation>
    </message>
    <message>
      <source>Another trial is asked for while the two best differ by more.</source>
      <translation>Se pide otro intento mientras los dos mejores difieran más.</translation>
    </message>
    <message>
      <source>Answer “pain now” for a proposal.</source>
      <translation>Responder a «dolor ahora» para tener una propuesta.</translation>
    </message>
    <message>
      <source>Apart at most</source>
      <translation>Separados como máximo</translation>
    </message>
    <message>
      <source>Archive</source>
      <translation>Archivar</translation>
    </message>
    <message>
      <source>Archived</source>
      <translation>Archivado</translation>
    </message>
    <message>
      <source>Archived too</source>
      <translation>También archivados</translation>
    </message>
    <message>
      <source>Archived. Put the athlete back on the list first.</source>
      <translation>Archivado. Primero hay que devolverlo a la lista.</translation>
    </message>
    <message>
      <source>Archived: {name}.</source>
      <translation>Archivado: {name}.</translation>
    </message>
    <message>
      <source>Archived; nothing is lost. Undo puts it back.</source>
      <translation>Archivado; no se pierde nada. Deshacer lo devuelve.</translation>
    </message>
    <message>
      <source>As a share of each person's level (CV, by logarithms): {cv:.1f} %, 95 % interval {low:.1f} to {high:.1f} %.</source>
      <translation>Como parte del nivel de cada persona (CV, por logaritmos): {cv:.1f} %, intervalo del 95 % de {low:.1f} a {high:.1f} %.</translation>
    </message>
    <message>
      <source>As it was saved.</source>
      <translation>Como estaba guardado.</translation>
    </message>
    <message>
      <source>As last time: the morning after it was not asked, so no step up.</source>
      <translation>Como la última vez: no se preguntó la mañana siguiente, así que no se sube.</translation>
    </message>
    <message>
      <source>As the practitioner said.</source>
      <translation>Según dijo el profesional.</translation>
    </message>
    <message>
      <source>As the system</source>
      <translation>Como el sistema</translation>
    </message>
    <message>
      <source>Ask a doctor before starting</source>
      <translation>Consultar al médico antes de empezar</translation>
    </message>
    <message>
      <source>Ask for a press on each cell</source>
      <translation>Pedir una presión en cada célula</translation>
    </message>
    <message>
      <source>Ask for samples too.</source>
      <translation>Pedir también las muestras.</translation>
    </message>
    <message>
      <source>Asked and done</source>
      <translation>Pedido y hecho</translation>
    </message>
    <message>
      <source>Asked and held, % of the reference of the day</source>
      <translation>Pedido y mantenido, % de la referencia del día</translation>
    </message>
    <message>
      <source>At DC, from the coefficients</source>
      <translation>En continua, por los coeficientes</translation>
    </message>
    <message>
      <source>At entry; empty: any</source>
      <translation>Al entrar; vacío: cualquiera</translation>
    </message>
    <message>
      <source>At least</source>
      <translation>Al menos</translation>
    </message>
    <message>
      <source>At least {least_pct:g} % of the holds complete in the last {sessions}.</source>
      <translation>Al menos el {least_pct:g} % de las repeticiones completas en las últimas {sessions}.</translation>
    </message>
    <message>
      <source>At rest {used} of the converter's range.</source>
      <translation>En reposo, {used} del rango del convertidor.</translation>
    </message>
    <message>
      <source>At the desk: {task}.</source>
      <translation>En la mesa: {task}.</translation>
    </message>
    <message>
      <source>At the end of the converter's range: {cells}.</source>
      <translation>Al final del rango del convertidor: {cells}.</translation>
    </message>
    <message>
      <source>At the rig</source>
      <translation>En el equipo</translation>
    </message>
    <message>
      <source>At {rate_hz:g} samples a second 50 and 60 Hz cannot be told from a slow change.</source>
      <translation>A {rate_hz:g} muestras por segundo, 50 y 60 Hz no se distinguen de un cambio lento.</translation>
    </message>
    <message>
      <source>Athlete</source>
      <translation>Atleta</translation>
    </message>
    <message>
      <source>Athlete's screen</source>
      <translation>Pantalla del atleta</translation>
    </message>
    <message>
      <source>Athlete's screen on the other monitor, or back</source>
      <translation>Pantalla del atleta al otro monitor, o de vuelta</translation>
    </message>
    <message>
      <source>Athlete's screen to the other monitor, and back</source>
      <translation>Pantalla del atleta al otro monitor, y de vuelta</translation>
    </message>
    <message>
      <source>Athletes</source>
      <translation>Atletas</translation>
    </message>
    <message>
      <source>Athletes, tasks, plan: a new one</source>
      <translation>Atletas, tareas, plan: uno nuevo</translation>
    </message>
    <message>
      <source>Athletes, tasks, plan: archive, or put back</source>
      <translation>Atletas, tareas, plan: archivar, o devolver</translation>
    </message>
    <message>
      <source>Athletes, tasks, plan: put back what went last</source>
      <translation>Atletas, tareas, plan: devolver lo último retirado</translation>
    </message>
    <message>
      <source>Athletes, tasks, plan: the form as it was saved</source>
      <translation>Atletas, tareas, plan: el formulario como se guardó</translation>
    </message>
    <message>
      <source>Athletes: choose. Today: take to the desk</source>
      <translation>Atletas: elegir. Hoy: llevar a la mesa</translation>
    </message>
    <message>
      <source>Athletes: who is here, and who there is</source>
      <translation>Atletas: quién está aquí y quiénes hay</translation>
    </message>
    <message>
      <source>Automatic</source>
      <translation>Automático</translation>
    </message>
    <message>
      <source>B (N)</source>
      <translation>B (N)</translation>
    </message>
    <message>
      <source>B, dashed</source>
      <translation>B, discontinua</translation>
    </message>
    <message>
      <source>Back to live</source>
      <translation>Volver a en vivo</translation>
    </message>
    <message>
      <source>Back to the band that is prescribed</source>
      <translation>Volver a la banda prescrita</translation>
    </message>
    <message>
      <source>Back to the rep</source>
      <translation>Volver a la repetición</translation>
    </message>
    <message>
      <source>Back up now</source>
      <translation>Hacer copia ahora</translation>
    </message>
    <message>
      <source>Back up now, or stop</source>
      <translation>Hacer la copia ahora, o detenerla</translation>
    </message>
    <message>
      <source>Backup</source>
      <translation>Copia de seguridad</translation>
    </message>
    <message>
      <source>Backup and erasing</source>
      <translation>Copia y borrado</translation>
    </message>
    <message>
      <source>Backups that are not here now may hold this person: {places}.</source>
      <translation>Puede haber datos de esta persona en copias de seguridad que ahora no están aquí: {places}.</translation>
    </message>
    <message>
      <source>Balance</source>
      <translation>Equilibrio</translation>
    </message>
    <message>
      <source>Balance is required</source>
      <translation>Se exige equilibrio</translation>
    </message>
    <message>
      <source>Balance ±</source>
      <translation>Equil. ±</translation>
    </message>
    <message>
      <source>Band</source>
      <translation>Banda</translation>
    </message>
    <message>
      <source>Band down</source>
      <translation>Banda más abajo</translation>
    </message>
    <message>
      <source>Band for each side</source>
      <translation>Banda para cada lado</translation>
    </message>
    <message>
      <source>Band narrower</source>
      <translation>Banda más estrecha</translation>
    </message>
    <message>
      <source>Band on</source>
      <translation>Banda sobre</translation>
    </message>
    <message>
      <source>Band up</source>
      <translation>Banda más arriba</translation>
    </message>
    <message>
      <source>Band wider</source>
      <translation>Banda más ancha</translation>
    </message>
    <message>
      <source>Begin</source>
      <translation>Empezar</translation>
    </message>
    <message>
      <source>Begin and end each run without a load.</source>
      <translation>Empezar y terminar cada ronda sin carga.</translation>
    </message>
    <message>
      <source>Begin another test</source>
      <translation>Empezar otra prueba</translation>
    </message>
    <message>
      <source>Begin another.</source>
      <translation>Empezar otra.</translation>
    </message>
    <message>
      <source>Begin from</source>
      <translation>Partir de</translation>
    </message>
    <message>
      <source>Begin the check</source>
      <translation>Empezar la comprobación</translation>
    </message>
    <message>
      <source>Begin the check, or end it here</source>
      <translation>Empezar la comprobación, o terminarla aquí</translation>
    </message>
    <message>
      <source>Begin the next set now</source>
      <translation>Empezar ahora la próxima serie</translation>
    </message>
    <message>
      <source>Begin the test</source>
      <translation>Empezar la prueba</translation>
    </message>
    <message>
      <source>Begin with light ink on dark</source>
      <translation>Empezar con tinta clara sobre fondo oscuro</translation>
    </message>
    <message>
      <source>Begin, or end without keeping</source>
      <translation>Empezar, o terminar sin guardar</translation>
    </message>
    <message>
      <source>Begins when it is saved.</source>
      <translation>Empieza al guardarlo.</translation>
    </message>
    <message>
      <source>Below the prescribed {low:.1f} N: allowed, and noted so.</source>
      <translation>Por debajo de los {low:.1f} N prescritos: permitido, y queda anotado.</translation>
    </message>
    <message>
      <source>Between two visits of a person lie {least:.0f} to {most:.0f} days, in the middle {middle:.0f}. What training or injury changed meanwhile, otherwise in one than in another, counts as error.</source>
      <translation>Entre dos visitas de una persona hay de {least:.0f} a {most:.0f} días, mediana {middle:.0f}. Lo que el entrenamiento o la lesión cambió entretanto, de modo distinto en cada persona, cuenta como error.</translation>
    </message>
    <message>
      <source>Blind</source>
      <translation>A ciegas</translation>
    </message>
    <message>
      <source>Body mass</source>
      <translation>Masa corporal</translation>
    </message>
    <message>
      <source>Body mass limits the exercise; outside load may be due.</source>
      <translation>La masa corporal limita el ejercicio; puede hacer falta carga externa.</translation>
    </message>
    <message>
      <source>Born in</source>
      <translation>Nacimiento</translation>
    </message>
    <message>
      <source>Both</source>
      <translation>Ambos</translation>
    </message>
    <message>
      <source>Both sides at once. One side at a time uses 100 (max − min)/max.</source>
      <translation>Ambos lados a la vez. Un lado cada vez usa 100 (max − min)/max.</translation>
    </message>
    <message>
      <source>Both sides work together in this set.</source>
      <translation>Ambos lados trabajan juntos en esta serie.</translation>
    </message>
    <message>
      <source>Both sides work together: there is no other side to go by.</source>
      <translation>Ambos lados trabajan juntos: no hay otro lado con que comparar.</translation>
    </message>
    <message>
      <source>Both values must be known, by the same definition and in the same position, and not from practice or a test that hurt.</source>
      <translation>Ambos valores deben conocerse, con la misma definición y posición, y no venir de la práctica ni de una prueba con dolor.</translation>
    </message>
    <message>
      <source>Breaks in the signal.</source>
      <translation>Cortes en la señal.</translation>
    </message>
    <message>
      <source>Breathe</source>
      <translation>Respirar</translation>
    </message>
    <message>
      <source>Breathe freely through every hold. Breath that is held raises blood pressure: people taught not to hold it in isometric knee work had 148/112 in place of 163/120 mmHg (Phys Ther 1989;69:757).</source>
      <translation>Respirar con libertad en cada repetición. Aguantar la respiración sube la presión arterial: quienes aprendieron a no aguantarla en trabajo isométrico de rodilla tuvieron 148/112 en lugar de 163/120 mmHg (Phys Ther 1989;69:757).</translation>
    </message>
    <message>
      <source>Breathing</source>
      <translation>Respiración</translation>
    </message>
    <message>
      <source>Build up over 1 to 2 s, then hold all you have. Breathe freely; do not hold the breath. Stop at pain, dizziness or doubt. What the treating clinician allows goes first; the program only advises. Take zero in the same way each time: with the limb resting, or of the empty rig.</source>
      <translation>Subir en 1 a 2 s y luego mantener todo lo posible. Respirar con libertad; no aguantar la respiración. Parar ante dolor, mareo o duda. Lo que permite el clínico tratante va primero; el programa solo aconseja. Tomar el cero siempre igual: con la extremidad en reposo o con el equipo vacío.</translation>
    </message>
    <message>
      <source>Build up to all you have</source>
      <translation>Subir hasta todo lo posible</translation>
    </message>
    <message>
      <source>Butterworth order {order}, {hz:g} Hz</source>
      <translation>Butterworth de orden {order}, {hz:g} Hz</translation>
    </message>
    <message>
      <source>By</source>
      <translation>Por</translation>
    </message>
    <message>
      <source>By a nominal one newtons may be some percent wrong.</source>
      <translation>Con una calibración nominal los newtons pueden errar algunos por ciento.</translation>
    </message>
    <message>
      <source>By eye</source>
      <translation>A la vista</translation>
    </message>
    <message>
      <source>By the new 100 % of {force_n:.0f} N the band would pass the ceiling of {ceiling_n:.0f} N: the sets to come stay as they were.</source>
      <translation>Con el nuevo 100 % de {force_n:.0f} N la banda pasaría del techo de {ceiling_n:.0f} N: las series por hacer se quedan como estaban.</translation>
    </message>
    <message>
      <source>By the new peak the floor would pass the ceiling; it stays.</source>
      <translation>Con el nuevo pico el suelo pasaría del techo; se queda como está.</translation>
    </message>
    <message>
      <source>By {formula}, both sides at once.</source>
      <translation>Por {formula}, ambos lados a la vez.</translation>
    </message>
    <message>
      <source>By {formula}, one side at a time.</source>
      <translation>Por {formula}, un lado cada vez.</translation>
    </message>
    <message>
      <source>CE</source>
      <translation>EC</translation>
    </message>
    <message>
      <source>CE, constant error: the mean distance from the centre, with its sign.</source>
      <translation>EC, error constante: distancia media al centro, con su signo.</translation>
    </message>
    <message>
      <source>CSV: the athlete's code, isometric and eccentric force in newtons</source>
      <translation>CSV: el código del atleta, fuerza isométrica y excéntrica en newtons</translation>
    </message>
    <message>
      <source>CV</source>
      <translation>CV</translation>
    </message>
    <message>
      <source>CV detrended</source>
      <translation>CV sin tendencia</translation>
    </message>
    <message>
      <source>CV, %</source>
      <translation>CV, %</translation>
    </message>
    <message>
      <source>CV, coefficient of variation: SD of the force in % of its mean.</source>
      <translation>CV, coeficiente de variación: DE de la fuerza en % de su media.</translation>
    </message>
    <message>
      <source>Calibrate</source>
      <translation>Calibrar</translation>
    </message>
    <message>
      <source>Calibrate before anybody trains on this rig.</source>
      <translation>Calibrar antes de que nadie entrene en este equipo.</translation>
    </message>
    <message>
      <source>Calibrate with known masses or forces</source>
      <translation>Calibrar con masas o fuerzas conocidas</translation>
    </message>
    <message>
      <source>Calibrate with known masses.</source>
      <translation>Calibrar con masas conocidas.</translation>
    </message>
    <message>
      <source>Calibrate {name}</source>
      <translation>Calibrar {name}</translation>
    </message>
    <message>
      <source>Calibrated and zeroed force, without the live filter.</source>
      <translation>Fuerza calibrada y con cero, sin el filtro en vivo.</translation>
    </message>
    <message>
      <source>Calibration</source>
      <translation>Calibración</translation>
    </message>
    <message>
      <source>Calibration: begin, or end without keeping</source>
      <translation>Calibración: empezar, o terminar sin guardar</translation>
    </message>
    <message>
      <source>Calibration: take back. Check: leave this press out</source>
      <translation>Calibración: retirar. Comprobación: omitir esta presión</translation>
    </message>
    <message>
      <source>Calibration: take this point. Check, test: begin, or end</source>
      <translation>Calibración: tomar este punto. Comprobación, prueba: empezar o terminar</translation>
    </message>
    <message>
      <source>Calm it: 10–20 %</source>
      <translation>Calmarlo: 10–20 %</translation>
    </message>
    <message>
      <source>Candidates</source>
      <translation>Candidatos</translation>
    </message>
    <message>
      <source>Cannot tell yet how much of it is noise: too few visits.</source>
      <translation>Aún no se sabe cuánto es ruido: muy pocas visitas.</translation>
    </message>
    <message>
      <source>Cannot tell yet what is noise: it takes five visits with different results, there are {visits}.</source>
      <translation>Aún no se sabe qué es ruido: hacen falta cinco visitas con resultados distintos, hay {visits}.</translation>
    </message>
    <message>
      <source>Cannot tell yet what is noise: it takes three visits with a test of each side.</source>
      <translation>Aún no se sabe qué es ruido: hacen falta tres visitas con una prueba de cada lado.</translation>
    </message>
    <message>
      <source>Cannot tell yet what is noise: it takes three visits with a test of this side.</source>
      <translation>Aún no se sabe qué es ruido: hacen falta tres visitas con una prueba de este lado.</translation>
    </message>
    <message>
      <source>Cannot tell yet: three people need both scores, here are {people}.</source>
      <translation>Aún no se puede saber: hacen falta tres personas con ambos valores, aquí hay {people}.</translation>
    </message>
    <message>
      <source>Cannot tell yet: too few people have two scores.</source>
      <translation>Aún no se puede saber: muy pocas personas tienen dos valores.</translation>
    </message>
    <message>
      <source>Care</source>
      <translation>Cuidado</translation>
    </message>
    <message>
      <source>Cautions</source>
      <translation>Precauciones</translation>
    </message>
    <message>
      <source>Ceiling</source>
      <translation>Techo</translation>
    </message>
    <message>
      <source>Ceiling in newtons</source>
      <translation>Techo en newtons</translation>
    </message>
    <message>
      <source>Ceiling {n} N: not to be passed</source>
      <translation>Techo {n} N: no se debe pasar</translation>
    </message>
    <message>
      <source>Ceiling: {forces}</source>
      <translation>Techo: {forces}</translation>
    </message>
    <message>
      <source>Cell</source>
      <translation>Célula</translation>
    </message>
    <message>
      <source>Centre</source>
      <translation>Centro</translation>
    </message>
    <message>
      <source>Chance alone gives as large a change common to all in {share:.1f} % of such tables.</source>
      <translation>Solo el azar da un cambio común a todos así de grande en el {share:.1f} % de tales tablas.</translation>
    </message>
    <message>
      <source>Change between day and night</source>
      <translation>Cambiar entre día y noche</translation>
    </message>
    <message>
      <source>Change of the time in the band, by the rules</source>
      <translation>Cambio del tiempo en la banda, según las reglas</translation>
    </message>
    <message>
      <source>Change the ceiling in the plan, or the band here.</source>
      <translation>Cambie el techo en el plan, o la banda aquí.</translation>
    </message>
    <message>
      <source>Changed; proposed is {n} {unit}. {reason}</source>
      <translation>Cambiado; se propone {n} {unit}. {reason}</translation>
    </message>
    <message>
      <source>Changes of the band within sets: {number}.</source>
      <translation>Cambios de la banda dentro de series: {number}.</translation>
    </message>
    <message>
      <source>Charts</source>
      <translation>Gráficas</translation>
    </message>
    <message>
      <source>Charts show what was done. What it means, you and the treating clinician decide.</source>
      <translation>Las gráficas muestran lo hecho. Lo que significa lo deciden el profesional y el clínico tratante.</translation>
    </message>
    <message>
      <source>Check</source>
      <translation>Control</translation>
    </message>
    <message>
      <source>Check again, to the end.</source>
      <translation>Comprobar otra vez, hasta el final.</translation>
    </message>
    <message>
      <source>Check that mass and what was entered, and that nothing touched it.</source>
      <translation>Revisar esa masa y lo escrito, y que nada la tocara.</translation>
    </message>
    <message>
      <source>Check that nothing joins the two cells but the frame.</source>
      <translation>Ver que nada une las dos células salvo el bastidor.</translation>
    </message>
    <message>
      <source>Check that the load hangs freely on it and that the cell is connected.</source>
      <translation>Ver que la carga cuelga libre de ella y que la célula está conectada.</translation>
    </message>
    <message>
      <source>Check that the load hangs on this cell and that it is connected.</source>
      <translation>Ver que la carga cuelga de esta célula y que está conectada.</translation>
    </message>
    <message>
      <source>Check that the load hangs on this cell and that the cell is connected.</source>
      <translation>Ver que la carga cuelga de esta célula y que la célula está conectada.</translation>
    </message>
    <message>
      <source>Check the code and --logbook.</source>
      <translation>Compruebe el código y --logbook.</translation>
    </message>
    <message>
      <source>Check the code.</source>
      <translation>Revisar el código.</translation>
    </message>
    <message>
      <source>Check the disk.</source>
      <translation>Ver el disco.</translation>
    </message>
    <message>
      <source>Check the folder and who may read it.</source>
      <translation>Ver la carpeta y quién puede leerla.</translation>
    </message>
    <message>
      <source>Check the lowering reps of that day</source>
      <translation>Ver los descensos de ese día</translation>
    </message>
    <message>
      <source>Check the points, or fit a line.</source>
      <translation>Revisar los puntos, o ajustar una recta.</translation>
    </message>
    <message>
      <source>Check the rig: rate, noise, drift, each cell</source>
      <translation>Comprobar el equipo: frecuencia, ruido, deriva, cada célula</translation>
    </message>
    <message>
      <source>Check the unit and the columns.</source>
      <translation>Revisar la unidad y las columnas.</translation>
    </message>
    <message>
      <source>Check who may write to the file and its folder.</source>
      <translation>Ver quién puede escribir en el archivo y su carpeta.</translation>
    </message>
    <message>
      <source>Chest pain, or pain in jaw or arm; short breath that does not settle.</source>
      <translation>Dolor en el pecho, o en mandíbula o brazo; falta de aire que no cede.</translation>
    </message>
    <message>
      <source>Choose 0 to 10 first.</source>
      <translation>Primero elegir de 0 a 10.</translation>
    </message>
    <message>
      <source>Choose a folder of recordings</source>
      <translation>Elegir una carpeta de registros</translation>
    </message>
    <message>
      <source>Choose a folder on another disk.</source>
      <translation>Elegir una carpeta en otro disco.</translation>
    </message>
    <message>
      <source>Choose a measure to read what it means and is taken from.</source>
      <translation>Elegir una medida para leer qué significa y de qué se toma.</translation>
    </message>
    <message>
      <source>Choose a new folder, or that of an earlier backup.</source>
      <translation>Elegir una carpeta nueva, o la de una copia anterior.</translation>
    </message>
    <message>
      <source>Choose a task, or type the name of a new one.</source>
      <translation>Elegir una tarea o escribir el nombre de una nueva.</translation>
    </message>
    <message>
      <source>Choose a wider band or a lower filter cut-off, or make the noise smaller.</source>
      <translation>Elegir una banda más ancha o un filtro con corte más bajo, o reducir el ruido.</translation>
    </message>
    <message>
      <source>Choose an athlete first.</source>
      <translation>Primero hay que elegir un atleta.</translation>
    </message>
    <message>
      <source>Choose an athlete to copy to.</source>
      <translation>Elegir un atleta a quien copiar.</translation>
    </message>
    <message>
      <source>Choose an effort in the list.</source>
      <translation>Elegir un esfuerzo de la lista.</translation>
    </message>
    <message>
      <source>Choose another code, or put that athlete back.</source>
      <translation>Elegir otro código, o devolver a ese atleta a la lista.</translation>
    </message>
    <message>
      <source>Choose another code.</source>
      <translation>Elegir otro código.</translation>
    </message>
    <message>
      <source>Choose another file.</source>
      <translation>Elegir otro archivo.</translation>
    </message>
    <message>
      <source>Choose another folder.</source>
      <translation>Elegir otra carpeta.</translation>
    </message>
    <message>
      <source>Choose another label.</source>
      <translation>Elegir otra etiqueta.</translation>
    </message>
    <message>
      <source>Choose another name.</source>
      <translation>Elegir otro nombre.</translation>
    </message>
    <message>
      <source>Choose another number.</source>
      <translation>Elegir otro número.</translation>
    </message>
    <message>
      <source>Choose another place.</source>
      <translation>Elegir otro lugar.</translation>
    </message>
    <message>
      <source>Choose another, or type one.</source>
      <translation>Elegir otra, o escribir una.</translation>
    </message>
    <message>
      <source>Choose at least {lowest_hz:g} Hz.</source>
      <translation>Elegir al menos {lowest_hz:g} Hz.</translation>
    </message>
    <message>
      <source>Choose at most {highest_hz:g} Hz, or a higher sample rate.</source>
      <translation>Elegir como máximo {highest_hz:g} Hz, o una frecuencia de muestreo mayor.</translation>
    </message>
    <message>
      <source>Choose for this visit</source>
      <translation>Elegir para esta visita</translation>
    </message>
    <message>
      <source>Choose more than 0 s and at most {slowest_s:g} s.</source>
      <translation>Elegir más de 0 s y como máximo {slowest_s:g} s.</translation>
    </message>
    <message>
      <source>Choose one, or type the name of a new one.</source>
      <translation>Elegir una o escribir el nombre de una nueva.</translation>
    </message>
    <message>
      <source>Choose recordings</source>
      <translation>Elegir registros</translation>
    </message>
    <message>
      <source>Choose recordings of sets, at 40 samples a second or more.</source>
      <translation>Elija registros de series, con 40 muestras por segundo o más.</translation>
    </message>
    <message>
      <source>Choose the profile of this rig.</source>
      <translation>Elegir el perfil de este equipo.</translation>
    </message>
    <message>
      <source>Choose the rate in the board's settings that it really has: filter and delay are worked out from it.</source>
      <translation>Elegir en los ajustes de la placa la frecuencia que tiene de verdad: de ella salen el filtro y el retardo.</translation>
    </message>
    <message>
      <source>Choose {code} for this visit</source>
      <translation>Elegir {code} para esta visita</translation>
    </message>
    <message>
      <source>Choose “total”, or connect the other cell.</source>
      <translation>Elegir «total», o conectar la otra célula.</translation>
    </message>
    <message>
      <source>Cleared as well: {count} copies, {places}.</source>
      <translation>Se limpian también: {count} copias, {places}.</translation>
    </message>
    <message>
      <source>Cleared as well: {count} copy, {places}.</source>
      <translation>Se limpia también: {count} copia, {places}.</translation>
    </message>
    <message>
      <source>Clock</source>
      <translation>Reloj</translation>
    </message>
    <message>
      <source>Close</source>
      <translation>Cerrar</translation>
    </message>
    <message>
      <source>Close (Esc)</source>
      <translation>Cerrar (Esc)</translation>
    </message>
    <message>
      <source>Close other programs that keep this computer busy, and plug the board in without a hub; on Windows set the port's latency to 1 ms.</source>
      <translation>Cerrar otros programas que ocupan este ordenador y conectar la placa sin concentrador; en Windows, poner la latencia del puerto en 1 ms.</translation>
    </message>
    <message>
      <source>Close other windows and commands of biofeedback, then try again.</source>
      <translation>Cerrar otras ventanas y órdenes de biofeedback y probar otra vez.</translation>
    </message>
    <message>
      <source>Close that program, then the rig is found by itself.</source>
      <translation>Cerrar ese programa; entonces el equipo se encuentra solo.</translation>
    </message>
    <message>
      <source>Close the other program, or try again.</source>
      <translation>Cerrar el otro programa, o intentarlo de nuevo.</translation>
    </message>
    <message>
      <source>Close the window and all other biofeedback commands, then try again.</source>
      <translation>Cerrar la ventana y los demás comandos de biofeedback, e intentarlo de nuevo.</translation>
    </message>
    <message>
      <source>Closer</source>
      <translation>Más cerca</translation>
    </message>
    <message>
      <source>Closing: what is left is being written.</source>
      <translation>Cerrando: se está escribiendo lo que queda.</translation>
    </message>
    <message>
      <source>Code</source>
      <translation>Código</translation>
    </message>
    <message>
      <source>Code of the athlete</source>
      <translation>Código del atleta</translation>
    </message>
    <message>
      <source>Codes only, no names. Of somebody who was erased it is told that it was done, and not of whom.</source>
      <translation>Solo códigos, sin nombres. De un borrado consta que se hizo, y no de quién.</translation>
    </message>
    <message>
      <source>Columns are split by comma, semicolon or tab.</source>
      <translation>Las columnas se separan con coma, punto y coma o tabulador.</translation>
    </message>
    <message>
      <source>Compare it with what was written down, group by group.</source>
      <translation>Compararlo con lo anotado, grupo por grupo.</translation>
    </message>
    <message>
      <source>Complete rep: the clock of the hold reached the time asked for; void reps count nowhere. In the band: seconds between its edges. Planned: reps × hold; of a set outside a running order as it was begun, once where it was broken off and begun anew. Dose: force in % of the reference × seconds, the way into the band included.</source>
      <translation>Repetición completa: el reloj llegó al tiempo pedido; las nulas no cuentan en ningún sitio. En la banda: segundos entre sus bordes. Previsto: repeticiones × tiempo; de una serie fuera del orden previsto, tal como se empezó, una vez si se interrumpió y se empezó de nuevo. Dosis: fuerza en % de la referencia × segundos, incluida la entrada en la banda.</translation>
    </message>
    <message>
      <source>Complete reps by week, asked for and done</source>
      <translation>Repeticiones completas por semana, pedidas y hechas</translation>
    </message>
    <message>
      <source>Complete reps by week, planned and done</source>
      <translation>Repeticiones completas por semana, previstas y hechas</translation>
    </message>
    <message>
      <source>Complete reps, of those planned, or asked for where nothing was planned. Void ones count nowhere.</source>
      <translation>Repeticiones completas, de las previstas, o de las pedidas donde no había nada previsto. Las nulas no cuentan en ningún sitio.</translation>
    </message>
    <message>
      <source>Consent</source>
      <translation>Consentimiento</translation>
    </message>
    <message>
      <source>Copied now: {count} file; as before: {same}.</source>
      <translation>Copiado ahora: {count} archivo; sin cambios: {same}.</translation>
    </message>
    <message>
      <source>Copied now: {count} files; as before: {same}.</source>
      <translation>Copiados ahora: {count} archivos; sin cambios: {same}.</translation>
    </message>
    <message>
      <source>Copied to {code}, who follows it from now on.</source>
      <translation>Copiado a {code}, que lo sigue desde ahora.</translation>
    </message>
    <message>
      <source>Copy to</source>
      <translation>Copiar a</translation>
    </message>
    <message>
      <source>Copy to athlete</source>
      <translation>Copiar a un atleta</translation>
    </message>
    <message>
      <source>Copying recordings: {pct} % done.</source>
      <translation>Copiando grabaciones: {pct} % hecho.</translation>
    </message>
    <message>
      <source>Copying the logbook.</source>
      <translation>Copiando el registro.</translation>
    </message>
    <message>
      <source>Correct the pain in {effort}</source>
      <translation>Corregir el dolor en {effort}</translation>
    </message>
    <message>
      <source>Corrected: pain in that effort was not asked.</source>
      <translation>Corregido: no se preguntó el dolor en ese esfuerzo.</translation>
    </message>
    <message>
      <source>Corrected: pain {level} of 10 in that effort.</source>
      <translation>Corregido: dolor {level} de 10 en ese esfuerzo.</translation>
    </message>
    <message>
      <source>Correlation: none, one of the forces does not vary.</source>
      <translation>Correlación: ninguna, una de las fuerzas no varía.</translation>
    </message>
    <message>
      <source>Correlation: r = {r:.2f}</source>
      <translation>Correlación: r = {r:.2f}</translation>
    </message>
    <message>
      <source>Correlations of people (ICC), 95 % intervals</source>
      <translation>Correlaciones de personas (ICC), intervalos del 95 %</translation>
    </message>
    <message>
      <source>Cost
µs</source>
      <translation>Coste
µs</translation>
    </message>
    <message>
      <source>Counts after all</source>
      <translation>Cuenta al final</translation>
    </message>
    <message>
      <source>Criteria to move on</source>
      <translation>Criterios para avanzar</translation>
    </message>
    <message>
      <source>Critical force {force_n:.0f} N (standard error {error_n:.0f} N), reserve above it {reserve_ns:.0f} N·s (± {reserve_error_ns:.0f}), from {holds} open-ended holds that were let go, taken as holds to failure: {used}. It promises nothing beyond the longest of them.</source>
      <translation>Fuerza crítica {force_n:.0f} N (error estándar {error_n:.0f} N), reserva por encima {reserve_ns:.0f} N·s (± {reserve_error_ns:.0f}), de {holds} repeticiones sin final fijado que se soltaron, tomadas como hasta el fallo: {used}. No promete nada más allá de la más larga.</translation>
    </message>
    <message>
      <source>Critical force: cannot be told. It takes three open-ended holds (asked for {open_s:.0f} s or more) within {days} days, let go after {least_s:.0f} s or more, the longest at least twice the shortest; there are {holds}.</source>
      <translation>Fuerza crítica: no se puede decir. Hacen falta tres repeticiones sin final fijado (pedidas de {open_s:.0f} s o más) en {days} días, soltadas tras {least_s:.0f} s o más, la más larga al menos el doble de la más corta; hay {holds}.</translation>
    </message>
    <message>
      <source>Cue</source>
      <translation>Indicación</translation>
    </message>
    <message>
      <source>Cut it into parts.</source>
      <translation>Cortarla en partes.</translation>
    </message>
    <message>
      <source>Cut short</source>
      <translation>Acortar</translation>
    </message>
    <message>
      <source>Cut the set short, or stop.</source>
      <translation>Acortar la serie, o parar.</translation>
    </message>
    <message>
      <source>Cut the table there.</source>
      <translation>Cortar ahí la tabla.</translation>
    </message>
    <message>
      <source>Cuts after the pain-monitoring model: Thomeé 1997; Silbernagel et al. 2007. Sources differ on them, so they can be changed. Steps in the range are this program's rule of thumb. A change of one point is not a finding (see Salaffi 2004 and Michener 2011).</source>
      <translation>Límites según el modelo de control del dolor: Thomeé 1997; Silbernagel et al. 2007. Las fuentes difieren, así que se pueden cambiar. Los pasos en el rango son regla práctica de este programa. Un cambio de un punto no es un hallazgo (véase Salaffi 2004 y Michener 2011).</translation>
    </message>
    <message>
      <source>Dashed: mains and its multiples, {lines}.</source>
      <translation>Discontinuas: la red y sus múltiplos, {lines}.</translation>
    </message>
    <message>
      <source>Data</source>
      <translation>Datos</translation>
    </message>
    <message>
      <source>Data: back up now, or stop</source>
      <translation>Datos: hacer copia ahora, o detenerla</translation>
    </message>
    <message>
      <source>Data: back up, erase an athlete, see who did what</source>
      <translation>Datos: hacer copia, borrar un atleta, ver quién hizo qué</translation>
    </message>
    <message>
      <source>Data: backup, erasing, who did what</source>
      <translation>Datos: copia de seguridad, borrado, quién hizo qué</translation>
    </message>
    <message>
      <source>Date</source>
      <translation>Fecha</translation>
    </message>
    <message>
      <source>Day</source>
      <translation>Día</translation>
    </message>
    <message>
      <source>Days with a set in this period: {visits}.</source>
      <translation>Días con una serie en este período: {visits}.</translation>
    </message>
    <message>
      <source>Definition</source>
      <translation>Definición</translation>
    </message>
    <message>
      <source>Definition of the 100 %</source>
      <translation>Definición del 100 %</translation>
    </message>
    <message>
      <source>Degree 2: it meets all points. {repeat}</source>
      <translation>Grado 2: pasa por todos los puntos. {repeat}</translation>
    </message>
    <message>
      <source>Degree 2: {figures}. {repeat}</source>
      <translation>Grado 2: {figures}. {repeat}</translation>
    </message>
    <message>
      <source>Degree {degree}, as asked.</source>
      <translation>Grado {degree}, como se pidió.</translation>
    </message>
    <message>
      <source>Delay
ms</source>
      <translation>Retardo
ms</translation>
    </message>
    <message>
      <source>Dense band</source>
      <translation>Banda densa</translation>
    </message>
    <message>
      <source>Desk</source>
      <translation>Mesa</translation>
    </message>
    <message>
      <source>Difference on</source>
      <translation>Diferencia según</translation>
    </message>
    <message>
      <source>Differences</source>
      <translation>Diferencias</translation>
    </message>
    <message>
      <source>Differences, {what}</source>
      <translation>Diferencias, {what}</translation>
    </message>
    <message>
      <source>Disc on the path</source>
      <translation>Disco en el trazado</translation>
    </message>
    <message>
      <source>Dizziness, feeling faint, blurred vision, sudden headache.</source>
      <translation>Mareo, sensación de desmayo, visión borrosa, dolor de cabeza súbito.</translation>
    </message>
    <message>
      <source>Do the next set with the other side</source>
      <translation>Hacer la próxima serie con el otro lado</translation>
    </message>
    <message>
      <source>Do the test again.</source>
      <translation>Repetir la prueba.</translation>
    </message>
    <message>
      <source>Does not count</source>
      <translation>No cuenta</translation>
    </message>
    <message>
      <source>Does not count.</source>
      <translation>No cuenta.</translation>
    </message>
    <message>
      <source>Dominant side</source>
      <translation>Lado dominante</translation>
    </message>
    <message>
      <source>Done of planned</source>
      <translation>Hecho de lo previsto</translation>
    </message>
    <message>
      <source>Done of planned; the warm-up apart</source>
      <translation>Hecho de lo previsto; el calentamiento aparte</translation>
    </message>
    <message>
      <source>Done of what was asked for in the sets that were begun; nothing was planned</source>
      <translation>Hecho de lo pedido en las series que se empezaron; no había nada previsto</translation>
    </message>
    <message>
      <source>Dose by week, asked for and done</source>
      <translation>Dosis por semana, pedida y hecha</translation>
    </message>
    <message>
      <source>Dose by week, planned and done</source>
      <translation>Dosis por semana, prevista y hecha</translation>
    </message>
    <message>
      <source>Dose of each week</source>
      <translation>Dosis de cada semana</translation>
    </message>
    <message>
      <source>Drawn sample {ms} ms old</source>
      <translation>Muestra dibujada con {ms} ms</translation>
    </message>
    <message>
      <source>EDF+ and BIDS hold samples.</source>
      <translation>EDF+ y BIDS contienen muestras.</translation>
    </message>
    <message>
      <source>Each day</source>
      <translation>Cada día</translation>
    </message>
    <message>
      <source>Each point is a week, at its Monday. A week without a visit has no point: what was done elsewhere is not known.</source>
      <translation>Cada punto es una semana, en su lunes. Una semana sin visita no tiene punto: lo hecho en otro sitio no se sabe.</translation>
    </message>
    <message>
      <source>Each side has half of it.</source>
      <translation>Cada lado lleva la mitad.</translation>
    </message>
    <message>
      <source>Earlier</source>
      <translation>Antes</translation>
    </message>
    <message>
      <source>Early: low holds by pain</source>
      <translation>Al principio: mantenimientos bajos según el dolor</translation>
    </message>
    <message>
      <source>Ease off</source>
      <translation>Aflojar</translation>
    </message>
    <message>
      <source>Ease off slightly</source>
      <translation>Aflojar un poco</translation>
    </message>
    <message>
      <source>Eccentric and isometric peak</source>
      <translation>Pico excéntrico e isométrico</translation>
    </message>
    <message>
      <source>Eccentric less isometric peak</source>
      <translation>Pico excéntrico menos isométrico</translation>
    </message>
    <message>
      <source>Eccentric strength is lacking.</source>
      <translation>Falta fuerza excéntrica.</translation>
    </message>
    <message>
      <source>Effort</source>
      <translation>Esfuerzo</translation>
    </message>
    <message>
      <source>Effort is told after a set.</source>
      <translation>El esfuerzo se dice tras una serie.</translation>
    </message>
    <message>
      <source>Effort of 10: {levels}.</source>
      <translation>Esfuerzo de 10: {levels}.</translation>
    </message>
    <message>
      <source>Effort of the last set, 0 to 9 of 10</source>
      <translation>Esfuerzo de la última serie, 0 a 9 de 10</translation>
    </message>
    <message>
      <source>Effort of the last set, 10 of 10</source>
      <translation>Esfuerzo de la última serie, 10 de 10</translation>
    </message>
    <message>
      <source>Effort was not asked.</source>
      <translation>No se preguntó el esfuerzo.</translation>
    </message>
    <message>
      <source>Effort {level} of 10 is noted, of the last set.</source>
      <translation>Esfuerzo {level} de 10 anotado, de la última serie.</translation>
    </message>
    <message>
      <source>Efforts so far</source>
      <translation>Esfuerzos hasta ahora</translation>
    </message>
    <message>
      <source>Empty for none.</source>
      <translation>Vacío: ninguno.</translation>
    </message>
    <message>
      <source>Empty, it shows {shown}.</source>
      <translation>Vacío, muestra {shown}.</translation>
    </message>
    <message>
      <source>Empty: 9.80665 m/s²</source>
      <translation>Vacío: 9,80665 m/s²</translation>
    </message>
    <message>
      <source>Empty: all</source>
      <translation>Vacío: todo</translation>
    </message>
    <message>
      <source>Empty: no upper end</source>
      <translation>Vacío: sin extremo superior</translation>
    </message>
    <message>
      <source>Empty: the band is the whole range</source>
      <translation>Vacío: la banda es todo el rango</translation>
    </message>
    <message>
      <source>Empty: the one typed for the side.</source>
      <translation>Vacío: la escrita para el lado.</translation>
    </message>
    <message>
      <source>End it first.</source>
      <translation>Terminarla primero.</translation>
    </message>
    <message>
      <source>End it in .pdf or .png.</source>
      <translation>Terminarlo en .pdf o .png.</translation>
    </message>
    <message>
      <source>End of the visit</source>
      <translation>Fin de la visita</translation>
    </message>
    <message>
      <source>End practice</source>
      <translation>Terminar la práctica</translation>
    </message>
    <message>
      <source>End the check</source>
      <translation>Terminar la comprobación</translation>
    </message>
    <message>
      <source>End the visit here</source>
      <translation>Terminar aquí la visita</translation>
    </message>
    <message>
      <source>End this set, leave it at that, and go on after a rest</source>
      <translation>Terminar esta serie, dejarla así y seguir tras un descanso</translation>
    </message>
    <message>
      <source>End visit</source>
      <translation>Terminar visita</translation>
    </message>
    <message>
      <source>End without keeping</source>
      <translation>Terminar sin guardar</translation>
    </message>
    <message>
      <source>Ended by hand after {seconds:.1f} s at rest.</source>
      <translation>Terminado a mano tras {seconds:.1f} s en reposo.</translation>
    </message>
    <message>
      <source>Ended by the stop key, or with the set.</source>
      <translation>Terminada con la tecla de parar, o con la serie.</translation>
    </message>
    <message>
      <source>Ended; nothing was kept.</source>
      <translation>Terminado; no se guardó nada.</translation>
    </message>
    <message>
      <source>Ends the test now; all trials so far are kept (F9)</source>
      <translation>Termina ahora la prueba; se guardan todos los intentos hechos (F9)</translation>
    </message>
    <message>
      <source>Enough</source>
      <translation>Suficiente</translation>
    </message>
    <message>
      <source>Enough after 1 trial</source>
      <translation>Suficiente tras 1 intento</translation>
    </message>
    <message>
      <source>Enough after {count} trials</source>
      <translation>Suficiente tras {count} intentos</translation>
    </message>
    <message>
      <source>Enough trials</source>
      <translation>Intentos suficientes</translation>
    </message>
    <message>
      <source>Enter or a double click: this set comes next</source>
      <translation>Intro o doble clic: esta serie es la próxima</translation>
    </message>
    <message>
      <source>Erase an athlete</source>
      <translation>Borrar un atleta</translation>
    </message>
    <message>
      <source>Erase for good</source>
      <translation>Borrar para siempre</translation>
    </message>
    <message>
      <source>Erasing: {done} of {total} steps. Please wait; other pages come back when it is done.</source>
      <translation>Borrando: {done} de {total} pasos. Hay que esperar; las demás páginas vuelven al terminar.</translation>
    </message>
    <message>
      <source>Error tones on and off ({key})</source>
      <translation>Tonos de error sí o no ({key})</translation>
    </message>
    <message>
      <source>Even out the sides</source>
      <translation>Igualar los lados</translation>
    </message>
    <message>
      <source>Exactly when the rest is over; never the first set</source>
      <translation>Justo al acabar el descanso; nunca la primera serie</translation>
    </message>
    <message>
      <source>Exactly when the rest is over; never the first set. It can be
changed for one visit in its running order.</source>
      <translation>Justo al acabar el descanso; nunca la primera serie. Se puede
cambiar para una visita en su orden del día.</translation>
    </message>
    <message>
      <source>Example: long daily holds at 15–20 %</source>
      <translation>Ejemplo: mantenimientos largos cada día al 15–20 %</translation>
    </message>
    <message>
      <source>Example: shoulder after a repair, in stages</source>
      <translation>Ejemplo: hombro tras una reparación, por etapas</translation>
    </message>
    <message>
      <source>Example: tendon, conservative</source>
      <translation>Ejemplo: tendón, conservador</translation>
    </message>
    <message>
      <source>Excursions up to this are no lapses.</source>
      <translation>Las salidas de hasta este tiempo no cuentan como tales.</translation>
    </message>
    <message>
      <source>Exits from the band that the reference does not have</source>
      <translation>Salidas de la banda que la referencia no tiene</translation>
    </message>
    <message>
      <source>Exits of the reference that are not shown</source>
      <translation>Salidas de la referencia que no se muestran</translation>
    </message>
    <message>
      <source>Eye disease with new vessels, recent eye or hernia surgery.</source>
      <translation>Enfermedad ocular con vasos nuevos, cirugía ocular o de hernia reciente.</translation>
    </message>
    <message>
      <source>E² = CE² + VE²</source>
      <translation>E² = EC² + EV²</translation>
    </message>
    <message>
      <source>False
/min</source>
      <translation>Falsas
/min</translation>
    </message>
    <message>
      <source>Fewer reps</source>
      <translation>Menos repeticiones</translation>
    </message>
    <message>
      <source>Fewer than two people have all scores: there is no correlation.</source>
      <translation>Menos de dos personas tienen todos los valores: no hay correlación.</translation>
    </message>
    <message>
      <source>Fewer than two people have done this test in two visits.</source>
      <translation>Menos de dos personas han hecho este test en dos visitas.</translation>
    </message>
    <message>
      <source>Fewer than two scores in {lines}: left out of the error of measurement too.</source>
      <translation>Menos de dos valores en {lines}: tampoco cuenta para el error de medida.</translation>
    </message>
    <message>
      <source>Fewer than {columns} visits, left out of the correlations: {codes}.</source>
      <translation>Con menos de {columns} visitas, no cuentan para las correlaciones: {codes}.</translation>
    </message>
    <message>
      <source>Figures</source>
      <translation>Cifras</translation>
    </message>
    <message>
      <source>Figures come once three loads have been read.</source>
      <translation>Las cifras llegan cuando se han leído tres cargas.</translation>
    </message>
    <message>
      <source>File: {logbook}</source>
      <translation>Archivo: {logbook}</translation>
    </message>
    <message>
      <source>Filled, solid</source>
      <translation>Lleno, sólido</translation>
    </message>
    <message>
      <source>Filter</source>
      <translation>Filtro</translation>
    </message>
    <message>
      <source>Filter of the rig</source>
      <translation>Filtro del equipo</translation>
    </message>
    <message>
      <source>Filter, blind: X is better; 2: Y is; 3: no difference</source>
      <translation>Filtro, a ciegas: X es mejor; 2: lo es Y; 3: sin diferencia</translation>
    </message>
    <message>
      <source>Filter, blind: X is played; Y likewise</source>
      <translation>Filtro, a ciegas: se reproduce X; igual con Y</translation>
    </message>
    <message>
      <source>Filter: less of a recording, closer; with − more</source>
      <translation>Filtro: menos del registro, más de cerca; con − más</translation>
    </message>
    <message>
      <source>Filter: search, or stop</source>
      <translation>Filtro: buscar, o parar</translation>
    </message>
    <message>
      <source>Filter: the next view</source>
      <translation>Filtro: la vista siguiente</translation>
    </message>
    <message>
      <source>Filter: the row becomes A, or A is played; B likewise</source>
      <translation>Filtro: la fila pasa a ser A, o se reproduce A; igual con B</translation>
    </message>
    <message>
      <source>Filter: which smoothing, by recordings</source>
      <translation>Filtro: qué suavizado, según registros</translation>
    </message>
    <message>
      <source>Findings and figures</source>
      <translation>Hallazgos y cifras</translation>
    </message>
    <message>
      <source>First test of this task on this side: more trials are allowed, and the result is marked as a practice score.</source>
      <translation>Primera prueba de esta tarea en este lado: se permiten más intentos y el resultado se marca como de práctica.</translation>
    </message>
    <message>
      <source>Fit degree 2.</source>
      <translation>Ajustar grado 2.</translation>
    </message>
    <message>
      <source>Floor</source>
      <translation>Suelo</translation>
    </message>
    <message>
      <source>Floor from the paired task</source>
      <translation>Suelo de la tarea pareja</translation>
    </message>
    <message>
      <source>Floor {n} N: {pct} % of the isometric peak of {tested}, {age}, {sides}.</source>
      <translation>Suelo {n} N: {pct} % del pico isométrico de {tested}, {age}, {sides}.</translation>
    </message>
    <message>
      <source>Fold the desk away, and back</source>
      <translation>Plegar la mesa, y de vuelta</translation>
    </message>
    <message>
      <source>Fold the desk away, or back</source>
      <translation>Plegar la mesa, o de vuelta</translation>
    </message>
    <message>
      <source>Folder for backups</source>
      <translation>Carpeta para copias de seguridad</translation>
    </message>
    <message>
      <source>Folder…</source>
      <translation>Carpeta…</translation>
    </message>
    <message>
      <source>For holds a sustained number is the better 100 %: with a peak, holds above about 65 % settle below their target.</source>
      <translation>Para mantener, es mejor un 100 % sostenido: con un pico, lo que pasa de cerca del 65 % se queda bajo su objetivo.</translation>
    </message>
    <message>
      <source>For {who}, printed {day}.</source>
      <translation>Para {who}, impreso el {day}.</translation>
    </message>
    <message>
      <source>Force</source>
      <translation>Fuerza</translation>
    </message>
    <message>
      <source>Force in % of the reference times seconds. The way into the band is in it, so it may be more than reps × hold × centre of the band.</source>
      <translation>Fuerza en % de la referencia por segundos. Incluye la entrada en la banda, así que puede ser más que repeticiones × tiempo × centro de la banda.</translation>
    </message>
    <message>
      <source>Force of</source>
      <translation>Fuerza de</translation>
    </message>
    <message>
      <source>Force of the rep</source>
      <translation>Fuerza de la repetición</translation>
    </message>
    <message>
      <source>Force range in which the limits hold:</source>
      <translation>Intervalo de fuerza en que se cumplen los límites:</translation>
    </message>
    <message>
      <source>Force shown</source>
      <translation>Fuerza a la vista</translation>
    </message>
    <message>
      <source>Force times time, added up over the hold, in N·s.</source>
      <translation>Fuerza por tiempo, sumada durante la repetición, en N·s.</translation>
    </message>
    <message>
      <source>Force with A</source>
      <translation>Fuerza con A</translation>
    </message>
    <message>
      <source>Force with B</source>
      <translation>Fuerza con B</translation>
    </message>
    <message>
      <source>Forces are compared only in the same position. Sets that are saved keep the position they were done in.</source>
      <translation>Las fuerzas solo se comparan en la misma posición. Las series guardadas conservan la posición en que se hicieron.</translation>
    </message>
    <message>
      <source>Forces as given, from a reference; no gravity was used.</source>
      <translation>Fuerzas como se dieron, de una referencia; no se usó la gravedad.</translation>
    </message>
    <message>
      <source>Forces from masses by {gravity}.</source>
      <translation>Fuerzas de masas con {gravity}.</translation>
    </message>
    <message>
      <source>Form</source>
      <translation>Formulario</translation>
    </message>
    <message>
      <source>Found {layout}.</source>
      <translation>Se encontraron {layout}.</translation>
    </message>
    <message>
      <source>From</source>
      <translation>Desde</translation>
    </message>
    <message>
      <source>From a single trial: there is no spread to be seen.</source>
      <translation>De un solo intento: no se puede ver la dispersión.</translation>
    </message>
    <message>
      <source>From the centre of the joint to the middle of pad or strap.</source>
      <translation>Del centro de la articulación al medio de la almohadilla o la correa.</translation>
    </message>
    <message>
      <source>From the lower to the upper edge, both belong to it.</source>
      <translation>Del borde inferior al superior; ambos pertenecen a ella.</translation>
    </message>
    <message>
      <source>From the start of the rep to its first entry into the band.</source>
      <translation>Del inicio de la repetición a su primera entrada en la banda.</translation>
    </message>
    <message>
      <source>From the start to the end of a maximal trial.</source>
      <translation>Del inicio al final de un intento máximo.</translation>
    </message>
    <message>
      <source>From the start to where the force begins to fall for good.</source>
      <translation>Del inicio a donde la fuerza empieza a caer del todo.</translation>
    </message>
    <message>
      <source>From {least} to {most} of {of}, told on {days}; above the agreed cut of {cut} on {above} of them.</source>
      <translation>De {least} a {most} de {of}, dicho en {days}; por encima del corte acordado de {cut} en {above} de ellos.</translation>
    </message>
    <message>
      <source>Full</source>
      <translation>Llena</translation>
    </message>
    <message>
      <source>Full effort: built up over 1 to 2 s, {s} s in all.</source>
      <translation>Esfuerzo máximo: subir en 1 a 2 s, {s} s en total.</translation>
    </message>
    <message>
      <source>Full screen, and back</source>
      <translation>Pantalla completa, y de vuelta</translation>
    </message>
    <message>
      <source>Get ready {time}</source>
      <translation>Preparados {time}</translation>
    </message>
    <message>
      <source>Give a band to judge it by, for example --band 60:96 --hold 10.</source>
      <translation>Dar una banda para juzgarla, por ejemplo --band 60:96 --hold 10.</translation>
    </message>
    <message>
      <source>Give a band to judge it by, for example --band 60:96.</source>
      <translation>Dar una banda para juzgarla, por ejemplo --band 60:96.</translation>
    </message>
    <message>
      <source>Give a stack weight by weight, or give a tolerance in %.</source>
      <translation>Dar la pila pesa a pesa, o dar una tolerancia en %.</translation>
    </message>
    <message>
      <source>Give another band with --band.</source>
      <translation>Dar otra banda con --band.</translation>
    </message>
    <message>
      <source>Give its own date.</source>
      <translation>Dar su propia fecha.</translation>
    </message>
    <message>
      <source>Give names from the first row, or numbers from 1.</source>
      <translation>Dar nombres de la primera fila, o números desde 1.</translation>
    </message>
    <message>
      <source>Give the rig a quarter of an hour to warm up, leave nothing on it, and check again.</source>
      <translation>Dejar que el equipo se caliente un cuarto de hora, sin nada encima, y comprobar otra vez.</translation>
    </message>
    <message>
      <source>Give the sample rate in Hz, or name the time column.</source>
      <translation>Dar la frecuencia de muestreo en Hz, o nombrar la columna del tiempo.</translation>
    </message>
    <message>
      <source>Go on</source>
      <translation>Seguir</translation>
    </message>
    <message>
      <source>Go on against advice</source>
      <translation>Seguir contra el consejo</translation>
    </message>
    <message>
      <source>Go on without this cell</source>
      <translation>Seguir sin esta célula</translation>
    </message>
    <message>
      <source>Go on: 40–55 % for 20 s</source>
      <translation>Seguir: 40–55 % durante 20 s</translation>
    </message>
    <message>
      <source>Goes to: {folder}</source>
      <translation>Va a: {folder}</translation>
    </message>
    <message>
      <source>Good samples of the hold: the n of all errors.</source>
      <translation>Muestras buenas de la repetición: el n de todos los errores.</translation>
    </message>
    <message>
      <source>Grace</source>
      <translation>Margen</translation>
    </message>
    <message>
      <source>Ground the frame and the shield at one end, keep power supplies away, and run the laptop on its battery to compare.</source>
      <translation>Poner a tierra el bastidor y la malla por un extremo, alejar las fuentes y usar el portátil con batería para comparar.</translation>
    </message>
    <message>
      <source>Group</source>
      <translation>Grupo</translation>
    </message>
    <message>
      <source>Group: isometric against eccentric of many athletes</source>
      <translation>Grupo: isométrico frente a excéntrico de muchos atletas</translation>
    </message>
    <message>
      <source>Half of it is missing: the mass may hang on two cells.</source>
      <translation>Falta la mitad: la masa puede colgar de dos células.</translation>
    </message>
    <message>
      <source>Half of the time the force was higher, half of it lower.</source>
      <translation>La mitad del tiempo la fuerza fue mayor, la mitad menor.</translation>
    </message>
    <message>
      <source>Hang it on the other cell, or swap the two plugs.</source>
      <translation>Colgarla de la otra célula, o cambiar los dos conectores.</translation>
    </message>
    <message>
      <source>Hang {mass_kg:g} kg on {cell} alone, and let it come to rest.</source>
      <translation>Colgar {mass_kg:g} kg solo de {cell} y dejar que se quede quieta.</translation>
    </message>
    <message>
      <source>Hard holds raise it all the same: in wall squats of men with high blood pressure the upper value was 173 ± 21 mmHg, and the lower one above 115 in 12 of 26 (PMC5882444). Values named for stopping exercise there are 250 and 115 mmHg.</source>
      <translation>Los esfuerzos duros la suben igual: en sentadillas de pared de hombres con presión alta, el valor superior fue 173 ± 21 mmHg, y el inferior pasó de 115 en 12 de 26 (PMC5882444). Valores allí citados para detener el ejercicio: 250 y 115 mmHg.</translation>
    </message>
    <message>
      <source>Health of the rig</source>
      <translation>Estado del equipo</translation>
    </message>
    <message>
      <source>Held against</source>
      <translation>Comparada con</translation>
    </message>
    <message>
      <source>Held minus asked: between two visits less than {mdc:.1f} points may be noise (n = {visits} visits).</source>
      <translation>Mantenido menos pedido: entre dos visitas, menos de {mdc:.1f} puntos puede ser ruido (n = {visits} visitas).</translation>
    </message>
    <message>
      <source>Here: {here}. Put {known} back, or stop the set first.</source>
      <translation>Conectada: {here}. Volver a poner {known}, o detener antes la serie.</translation>
    </message>
    <message>
      <source>Here: {here}. Put {known} back, or use this one.</source>
      <translation>Conectada: {here}. Volver a poner {known}, o usar esta.</translation>
    </message>
    <message>
      <source>High blood pressure that is not under control (180/110 mmHg or more).</source>
      <translation>Presión arterial alta sin controlar (180/110 mmHg o más).</translation>
    </message>
    <message>
      <source>Hip adduction in crook lying</source>
      <translation>Aducción de cadera boca arriba</translation>
    </message>
    <message>
      <source>Hold</source>
      <translation>Mantener</translation>
    </message>
    <message>
      <source>Hold
ms</source>
      <translation>Mant.
ms</translation>
    </message>
    <message>
      <source>Hold by feel</source>
      <translation>Mantener por sensación</translation>
    </message>
    <message>
      <source>Hold it: 30 s</source>
      <translation>Mantenerlo: 30 s</translation>
    </message>
    <message>
      <source>Hold timer</source>
      <translation>Tiempo de mantener</translation>
    </message>
    <message>
      <source>Hold {value} s</source>
      <translation>Mantener {value} s</translation>
    </message>
    <message>
      <source>Hollow, dashed</source>
      <translation>Hueco, discontinuo</translation>
    </message>
    <message>
      <source>Hopkins (2000) asks for {enough_trials} trials of some {enough_people} people; here are {trials} trials of {people}. Read the intervals.</source>
      <translation>Hopkins (2000) pide {enough_trials} intentos de unas {enough_people} personas; aquí hay {trials} intentos de {people}. Lea los intervalos.</translation>
    </message>
    <message>
      <source>How 1 set ended: its recording was cut off.</source>
      <translation>Cómo terminó 1 serie: su grabación se cortó.</translation>
    </message>
    <message>
      <source>How each number is defined</source>
      <translation>Cómo se define cada número</translation>
    </message>
    <message>
      <source>How far a side may be from 50 % of the total, in points.</source>
      <translation>Cuánto puede alejarse un lado del 50 % del total, en puntos.</translation>
    </message>
    <message>
      <source>How far a side may be from 50 % of the total. Empty for none.</source>
      <translation>Cuánto puede alejarse un lado del 50 % del total. Vacío: ninguno.</translation>
    </message>
    <message>
      <source>How far apart the two results may be; 0 for the same day</source>
      <translation>Cuánto pueden distar los dos resultados; 0 para el mismo día</translation>
    </message>
    <message>
      <source>How far may a test be trusted, and which change is more than noise? Choose tests of the club, or a table of your own: one row a person, one column a trial.</source>
      <translation>¿Hasta dónde se puede confiar en un test y qué cambio es más que ruido? Elija tests del club o una tabla propia: una fila por persona, una columna por intento.</translation>
    </message>
    <message>
      <source>How far one person's results scatter from visit to visit without a change.</source>
      <translation>Cuánto varían los resultados de una persona entre visitas sin un cambio.</translation>
    </message>
    <message>
      <source>How far the force at rest moved from before to after the rep.</source>
      <translation>Cuánto se movió la fuerza en reposo de antes a después de la repetición.</translation>
    </message>
    <message>
      <source>How far the force went past the upper edge on its way in.</source>
      <translation>Cuánto pasó la fuerza del borde superior al entrar.</translation>
    </message>
    <message>
      <source>How fast the force fell from there to half, in N per s.</source>
      <translation>Con qué rapidez cayó la fuerza desde ahí a la mitad, en N por s.</translation>
    </message>
    <message>
      <source>How fast the force rises from its onset, in N per s.</source>
      <translation>Con qué rapidez sube la fuerza desde su inicio, en N por s.</translation>
    </message>
    <message>
      <source>How many</source>
      <translation>Cuántos</translation>
    </message>
    <message>
      <source>How much of a first test was learning: 1 practice test is left out of charts and noise.</source>
      <translation>Cuánto de una primera prueba fue aprendizaje: 1 prueba de práctica queda fuera de gráficos y ruido.</translation>
    </message>
    <message>
      <source>How much of a first test was learning: {count} practice tests are left out of charts and noise.</source>
      <translation>Cuánto de una primera prueba fue aprendizaje: {count} pruebas de práctica quedan fuera de gráficos y ruido.</translation>
    </message>
    <message>
      <source>How much this test varies cannot be told yet: that takes three visits of this athlete, or two visits each of two people, in the same task.</source>
      <translation>Aún no se sabe cuánto varía esta prueba: hacen falta tres visitas de este atleta, o dos visitas de dos personas cada una, en la misma tarea.</translation>
    </message>
    <message>
      <source>How often the band was left for longer than grace.</source>
      <translation>Cuántas veces se dejó la banda por más tiempo que el margen.</translation>
    </message>
    <message>
      <source>How other positions or definitions compare: 1 such test is left out.</source>
      <translation>Cómo se comparan otras posiciones o definiciones: 1 prueba así queda fuera.</translation>
    </message>
    <message>
      <source>How other positions or definitions compare: {count} such tests are left out.</source>
      <translation>Cómo se comparan otras posiciones o definiciones: {count} pruebas así quedan fuera.</translation>
    </message>
    <message>
      <source>How the force drifted during the hold, in N per s.</source>
      <translation>Cómo derivó la fuerza durante la repetición, en N por s.</translation>
    </message>
    <message>
      <source>How the onset of the rise was found.</source>
      <translation>Cómo se halló el inicio de la subida.</translation>
    </message>
    <message>
      <source>How the power of the wavering is shared between slow and quick.</source>
      <translation>Cómo se reparte la potencia de la oscilación entre lenta y rápida.</translation>
    </message>
    <message>
      <source>How unlike the sides were, by the formula beside it.</source>
      <translation>Cuán distintos fueron los lados, por la fórmula que se indica.</translation>
    </message>
    <message>
      <source>How {count} sets ended: their recordings were cut off.</source>
      <translation>Cómo terminaron {count} series: sus grabaciones se cortaron.</translation>
    </message>
    <message>
      <source>Hung on each cell in turn, it tells kilograms, pounds or kilonewtons from newtons.
Empty: no mass is asked for.</source>
      <translation>Colgada de cada célula por turno, distingue kilogramos, libras o kilonewtons de newtons.
Vacío: no se pide ninguna masa.</translation>
    </message>
    <message>
      <source>If the eye could not tell them apart, a count at least this uneven would come in {chance_pct:.1f} % of such series (two-sided sign test).</source>
      <translation>Si la vista no pudiera distinguirlos, un recuento al menos así de desigual saldría en el {chance_pct:.1f} % de tales series (prueba de los signos, bilateral).</translation>
    </message>
    <message>
      <source>If the first column holds codes, name it code.</source>
      <translation>Si la primera columna tiene códigos, llamarla code.</translation>
    </message>
    <message>
      <source>Impulse over the force at rest, first 100 ms from the onset.</source>
      <translation>Impulso sobre la fuerza en reposo, primeros 100 ms desde el inicio.</translation>
    </message>
    <message>
      <source>Impulse over the force at rest, first 200 ms from the onset.</source>
      <translation>Impulso sobre la fuerza en reposo, primeros 200 ms desde el inicio.</translation>
    </message>
    <message>
      <source>In % of rated output, worst run:</source>
      <translation>En % de la salida nominal, la peor vuelta:</translation>
    </message>
    <message>
      <source>In each session fewer reps are seen: all, ¾, half, a quarter.</source>
      <translation>En cada sesión se ven menos repeticiones: todas, ¾, mitad, un cuarto.</translation>
    </message>
    <message>
      <source>In newtons</source>
      <translation>En newtons</translation>
    </message>
    <message>
      <source>In the prescription's band, {leaving_words}</source>
      <translation>En la banda prescrita, {leaving_words}</translation>
    </message>
    <message>
      <source>In use now: {board}, with its own calibration and filter. Take zero anew.</source>
      <translation>En uso ahora: {board}, con su propia calibración y su propio filtro. Tomar de nuevo el cero.</translation>
    </message>
    <message>
      <source>In use: {used}.</source>
      <translation>En uso: {used}.</translation>
    </message>
    <message>
      <source>In ±5 % of 40 N, {leaving_words}</source>
      <translation>En ±5 % de 40 N, {leaving_words}</translation>
    </message>
    <message>
      <source>Injured side</source>
      <translation>Lado lesionado</translation>
    </message>
    <message>
      <source>Inside
s</source>
      <translation>Dentro
s</translation>
    </message>
    <message>
      <source>Install it with: {python} -m pip install {package}</source>
      <translation>Instalar con: {python} -m pip install {package}</translation>
    </message>
    <message>
      <source>Install the driver for it, or use a file.</source>
      <translation>Instalar su controlador, o usar un archivo.</translation>
    </message>
    <message>
      <source>Install the newer version.</source>
      <translation>Instalar la versión más nueva.</translation>
    </message>
    <message>
      <source>Install the newer version; nothing was changed.</source>
      <translation>Instalar la versión más nueva; no se cambió nada.</translation>
    </message>
    <message>
      <source>Invented example: short calf holds, both sides</source>
      <translation>Ejemplo inventado: mantenimientos cortos de pantorrilla, ambos lados</translation>
    </message>
    <message>
      <source>Isometric against eccentric</source>
      <translation>Isométrico frente a excéntrico</translation>
    </message>
    <message>
      <source>Isometric and eccentric in a group</source>
      <translation>Isométrico y excéntrico en un grupo</translation>
    </message>
    <message>
      <source>Isometric peaks of both sides together from which body mass may no longer suffice. Practice does not say whether a side or both are meant; it is set below:</source>
      <translation>Picos isométricos de ambos lados a la vez desde los que la masa corporal puede no bastar. La práctica no dice si se trata de un lado o de ambos; se fija abajo:</translation>
    </message>
    <message>
      <source>Isometric peaks of each side from which body mass may no longer suffice. Practice does not say whether a side or both are meant; it is set below:</source>
      <translation>Picos isométricos de cada lado desde los que la masa corporal puede no bastar. La práctica no dice si se trata de un lado o de ambos; se fija abajo:</translation>
    </message>
    <message>
      <source>It answered with {signed} N only.</source>
      <translation>Respondió solo con {signed} N.</translation>
    </message>
    <message>
      <source>It counts twice: both channels may be wired to this cell, or the mass pulls over a pulley.</source>
      <translation>Cuenta doble: ambos canales pueden estar en esta célula, o la masa tira por una polea.</translation>
    </message>
    <message>
      <source>It crosses zero at {crossing_n:.0f} N: {fieller} (95 %, Fieller); bootstrap {bootstrap}</source>
      <translation>Cruza el cero en {crossing_n:.0f} N: {fieller} (95 %, Fieller); bootstrap {bootstrap}</translation>
    </message>
    <message>
      <source>It crosses zero nowhere: the line has no slope.</source>
      <translation>No cruza el cero: la recta no tiene pendiente.</translation>
    </message>
    <message>
      <source>It did not answer.</source>
      <translation>No respondió.</translation>
    </message>
    <message>
      <source>It fell by {force_n:.0f} N: its polarity is reversed.</source>
      <translation>Bajó {force_n:.0f} N: su polaridad está invertida.</translation>
    </message>
    <message>
      <source>It fell: its polarity is reversed.</source>
      <translation>Bajó: su polaridad está invertida.</translation>
    </message>
    <message>
      <source>It holds names and health data and is not encrypted: keep it as safe as this computer.</source>
      <translation>Contiene nombres y datos de salud y no está cifrada: guardarla tan segura como este ordenador.</translation>
    </message>
    <message>
      <source>It is kept that you did (Ctrl+Shift+Return)</source>
      <translation>Queda registrado que se hizo (Ctrl+Shift+Return)</translation>
    </message>
    <message>
      <source>It is kept, and not in use yet: {why}</source>
      <translation>Está guardada y aún no en uso: {why}</translation>
    </message>
    <message>
      <source>It is no 100 % any more; can be kept again (until you leave this page)</source>
      <translation>Ya no es el 100 %; se puede guardar de nuevo (hasta dejar esta página)</translation>
    </message>
    <message>
      <source>It is not known which one side is injured.</source>
      <translation>No se sabe cuál es el único lado lesionado.</translation>
    </message>
    <message>
      <source>It is not known which side is injured.</source>
      <translation>No se sabe qué lado está lesionado.</translation>
    </message>
    <message>
      <source>It is on the list again.</source>
      <translation>Está de nuevo en la lista.</translation>
    </message>
    <message>
      <source>It is on the same disk as the logbook: should that disk fail, both are gone. Another disk is better.</source>
      <translation>Está en el mismo disco que el registro: si falla, se pierden los dos. Mejor otro disco.</translation>
    </message>
    <message>
      <source>It is said then; it keeps nobody from starting</source>
      <translation>Se dice entonces; no impide empezar</translation>
    </message>
    <message>
      <source>It is so</source>
      <translation>Es así</translation>
    </message>
    <message>
      <source>It must be {least:g} to {most:g}.</source>
      <translation>Debe estar entre {least:g} y {most:g}.</translation>
    </message>
    <message>
      <source>It must lie above 0 Hz and at or below {highest_hz:g} Hz: choose a higher sample rate, or no notch.</source>
      <translation>Debe estar por encima de 0 Hz y no pasar de {highest_hz:g} Hz: elegir una frecuencia de muestreo mayor, o sin filtro de red.</translation>
    </message>
    <message>
      <source>It rose by {force_n:.0f} N, and it alone.</source>
      <translation>Subió {force_n:.0f} N, y solo ella.</translation>
    </message>
    <message>
      <source>It stays as it is. Put it back from a backup.</source>
      <translation>Se queda como está. Recuperarla de una copia de seguridad.</translation>
    </message>
    <message>
      <source>It was a practice score.</source>
      <translation>Era un resultado de práctica.</translation>
    </message>
    <message>
      <source>It was stopped before its end.</source>
      <translation>Se detuvo antes del final.</translation>
    </message>
    <message>
      <source>It was taken with the limb resting.</source>
      <translation>Se tomó con la extremidad apoyada.</translation>
    </message>
    <message>
      <source>It went to {force_n:.0f} N, beyond what the cell or its converter takes.</source>
      <translation>Llegó a {force_n:.0f} N, más de lo que admite la célula o su convertidor.</translation>
    </message>
    <message>
      <source>Its newtons may be another person's, look at them: {places}.</source>
      <translation>Sus newtons pueden ser de otra persona; conviene mirarlos: {places}.</translation>
    </message>
    <message>
      <source>Join the cells to one converter board, or use one board a display.</source>
      <translation>Unir las células a una sola placa convertidora, o usar una placa por pantalla.</translation>
    </message>
    <message>
      <source>Joint</source>
      <translation>Articulación</translation>
    </message>
    <message>
      <source>Joint angle</source>
      <translation>Ángulo articular</translation>
    </message>
    <message>
      <source>Keep and use</source>
      <translation>Guardar y usar</translation>
    </message>
    <message>
      <source>Keep breathing</source>
      <translation>Seguir respirando</translation>
    </message>
    <message>
      <source>Keep date, proposal and note</source>
      <translation>Guardar fecha, propuesta y nota</translation>
    </message>
    <message>
      <source>Keep it</source>
      <translation>Guardarla</translation>
    </message>
    <message>
      <source>Keep it and use it</source>
      <translation>Guardarla y usarla</translation>
    </message>
    <message>
      <source>Keep this calibration and use it</source>
      <translation>Guardar esta calibración y usarla</translation>
    </message>
    <message>
      <source>Keep this page</source>
      <translation>Guardar esta página</translation>
    </message>
    <message>
      <source>Keep: calibration, test, athlete, task, plan</source>
      <translation>Guardar: calibración, prueba, atleta, tarea, plan</translation>
    </message>
    <message>
      <source>Kept</source>
      <translation>Guardado</translation>
    </message>
    <message>
      <source>Kept as no. {number} of this cell, “{label}”, and in use from now on.</source>
      <translation>Guardada como n.º {number} de esta célula, «{label}», y en uso desde ahora.</translation>
    </message>
    <message>
      <source>Kept in one table, and nowhere else.</source>
      <translation>Guardado en una sola tabla y en ningún otro sitio.</translation>
    </message>
    <message>
      <source>Kept with the move; may be empty.</source>
      <translation>Se guarda con el paso; puede quedar vacío.</translation>
    </message>
    <message>
      <source>Kept, and not judged: no rule for it has a source</source>
      <translation>Se guarda y no se juzga: ninguna regla para ello tiene fuente</translation>
    </message>
    <message>
      <source>Kept; what is changed now counts once it is kept again.</source>
      <translation>Guardado; lo que se cambie ahora cuenta al guardar de nuevo.</translation>
    </message>
    <message>
      <source>Key: {what}</source>
      <translation>Tecla: {what}</translation>
    </message>
    <message>
      <source>Keys</source>
      <translation>Teclas</translation>
    </message>
    <message>
      <source>Keys and words</source>
      <translation>Teclas y palabras</translation>
    </message>
    <message>
      <source>Keys of a presenter or foot switch</source>
      <translation>Teclas de un mando o pedal</translation>
    </message>
    <message>
      <source>Kind</source>
      <translation>Tipo</translation>
    </message>
    <message>
      <source>Kind of criterion</source>
      <translation>Tipo de criterio</translation>
    </message>
    <message>
      <source>Kind of intensity</source>
      <translation>Tipo de intensidad</translation>
    </message>
    <message>
      <source>Known loads</source>
      <translation>Cargas conocidas</translation>
    </message>
    <message>
      <source>Known mass</source>
      <translation>Masa conocida</translation>
    </message>
    <message>
      <source>Lag measured in holds</source>
      <translation>Demora medida al mantener</translation>
    </message>
    <message>
      <source>Lag measured while force rose or was let go</source>
      <translation>Demora medida al subir o soltar la fuerza</translation>
    </message>
    <message>
      <source>Language</source>
      <translation>Idioma</translation>
    </message>
    <message>
      <source>Last 12 months</source>
      <translation>Últimos 12 meses</translation>
    </message>
    <message>
      <source>Last 3 months</source>
      <translation>Últimos 3 meses</translation>
    </message>
    <message>
      <source>Last 4 weeks</source>
      <translation>Últimas 4 semanas</translation>
    </message>
    <message>
      <source>Last backup: {when}, in {place}.</source>
      <translation>Última copia: {when}, en {place}.</translation>
    </message>
    <message>
      <source>Last lowering rep</source>
      <translation>Último descenso</translation>
    </message>
    <message>
      <source>Last rep of a set below its first, % of the reference</source>
      <translation>Última repetición de una serie por debajo de la primera, % de la referencia</translation>
    </message>
    <message>
      <source>Last test: {force}, {definition}, {date}.</source>
      <translation>Última prueba: {force}, {definition}, {date}.</translation>
    </message>
    <message>
      <source>Later</source>
      <translation>Después</translation>
    </message>
    <message>
      <source>Later: 70 % for 10 s</source>
      <translation>Más tarde: 70 % durante 10 s</translation>
    </message>
    <message>
      <source>Latitude</source>
      <translation>Latitud</translation>
    </message>
    <message>
      <source>Leave it</source>
      <translation>Dejarlo</translation>
    </message>
    <message>
      <source>Leave it aside</source>
      <translation>Dejarla de lado</translation>
    </message>
    <message>
      <source>Leave out the next rep of this set</source>
      <translation>Omitir la próxima repetición de esta serie</translation>
    </message>
    <message>
      <source>Leave out the next set, or the one that was stopped</source>
      <translation>Omitir la próxima serie, o la que se detuvo</translation>
    </message>
    <message>
      <source>Leave the rig alone: {left_s:.0f} s.</source>
      <translation>No tocar el equipo: {left_s:.0f} s.</translation>
    </message>
    <message>
      <source>Leave this out</source>
      <translation>Omitir esto</translation>
    </message>
    <message>
      <source>Leaving the band for longer than the grace time.</source>
      <translation>Dejar la banda por más tiempo que el margen.</translation>
    </message>
    <message>
      <source>Left</source>
      <translation>Izquierda</translation>
    </message>
    <message>
      <source>Left out for want of one of the forces: {count} athletes.</source>
      <translation>Sin incluir por faltar una de las fuerzas: {count} atletas.</translation>
    </message>
    <message>
      <source>Left out.</source>
      <translation>Omitida.</translation>
    </message>
    <message>
      <source>Left out: 1 day without an isometric test near enough.</source>
      <translation>Sin incluir: 1 día sin prueba isométrica lo bastante próxima.</translation>
    </message>
    <message>
      <source>Left out: {count} days without an isometric test near enough.</source>
      <translation>Sin incluir: {count} días sin prueba isométrica lo bastante próxima.</translation>
    </message>
    <message>
      <source>Left out: {name}: {why}</source>
      <translation>Descartado: {name}: {why}</translation>
    </message>
    <message>
      <source>Left {left}, right {right}</source>
      <translation>Izquierda {left}, derecha {right}</translation>
    </message>
    <message>
      <source>Left {l} ({lp} %), right {r} ({rp} %) of the total.</source>
      <translation>Izquierda {l} ({lp} %), derecha {r} ({rp} %) del total.</translation>
    </message>
    <message>
      <source>Less motion</source>
      <translation>Menos movimiento</translation>
    </message>
    <message>
      <source>Let go</source>
      <translation>Soltar</translation>
    </message>
    <message>
      <source>Let go when ready</source>
      <translation>Soltar con calma</translation>
    </message>
    <message>
      <source>Let go.</source>
      <translation>Soltar.</translation>
    </message>
    <message>
      <source>Let no rep and no set start, and go on</source>
      <translation>No dejar empezar repetición ni serie, y seguir</translation>
    </message>
    <message>
      <source>Let rep start</source>
      <translation>Permitir rep.</translation>
    </message>
    <message>
      <source>Let the board send smaller frames, at least every 20 ms.</source>
      <translation>Que la placa envíe tramas más cortas, al menos cada 20 ms.</translation>
    </message>
    <message>
      <source>Let the load hang freely on one cell alone.</source>
      <translation>Dejar colgar la carga libre, de una sola célula.</translation>
    </message>
    <message>
      <source>Let the mass hang on this cell alone. If the other still answers, both channels may be wired to one cell.</source>
      <translation>Dejar que la masa cuelgue solo de esta célula. Si la otra sigue respondiendo, ambos canales pueden estar en una célula.</translation>
    </message>
    <message>
      <source>Let the next rep start, where reps start by key</source>
      <translation>Permitir la próxima repetición, donde empiezan por tecla</translation>
    </message>
    <message>
      <source>Let the stopped trial count</source>
      <translation>Dejar que cuente el intento detenido</translation>
    </message>
    <message>
      <source>Lever arm</source>
      <translation>Brazo de palanca</translation>
    </message>
    <message>
      <source>Line of the difference: {slope:.2f} N per N, {lower:.2f} to {upper:.2f} (95 %)</source>
      <translation>Recta de la diferencia: {slope:.2f} N por N, de {lower:.2f} a {upper:.2f} (95 %)</translation>
    </message>
    <message>
      <source>Line with teeth</source>
      <translation>Línea con dientes</translation>
    </message>
    <message>
      <source>Line, {name}</source>
      <translation>Línea, {name}</translation>
    </message>
    <message>
      <source>Listening for one second …</source>
      <translation>Escuchando un segundo …</translation>
    </message>
    <message>
      <source>Little pain up to</source>
      <translation>Poco dolor hasta</translation>
    </message>
    <message>
      <source>Load it: at least 80 % for 10 to 20 s</source>
      <translation>Cargarlo: al menos 80 % durante 10 a 20 s</translation>
    </message>
    <message>
      <source>Loads</source>
      <translation>Cargas</translation>
    </message>
    <message>
      <source>Longer hold</source>
      <translation>Mantener más</translation>
    </message>
    <message>
      <source>Longer rest</source>
      <translation>Descanso más largo</translation>
    </message>
    <message>
      <source>Look at athlete, task and dates.</source>
      <translation>Revisar atleta, tarea y fechas.</translation>
    </message>
    <message>
      <source>Look at its output: one or two numbers a line are read.</source>
      <translation>Mirar su salida: se leen uno o dos números por línea.</translation>
    </message>
    <message>
      <source>Look at its plug, then switch sound on again.</source>
      <translation>Mirar su conector y volver a activar el sonido.</translation>
    </message>
    <message>
      <source>Look at saved reps</source>
      <translation>Ver repeticiones guardadas</translation>
    </message>
    <message>
      <source>Look at the label, or name the logbook with --logbook.</source>
      <translation>Revisar la etiqueta, o nombrar el registro con --logbook.</translation>
    </message>
    <message>
      <source>Look at the residuals.</source>
      <translation>Mirar los residuos.</translation>
    </message>
    <message>
      <source>Look at the wiring of the converter: one of 24 bits is never still. A board that prints lines may need more digits.</source>
      <translation>Mirar el cableado del convertidor: uno de 24 bits nunca está quieto. Una placa que imprime líneas puede necesitar más cifras.</translation>
    </message>
    <message>
      <source>Look at: {names}.</source>
      <translation>Mirar: {names}.</translation>
    </message>
    <message>
      <source>Looking through logbook, recordings and backups.</source>
      <translation>Buscando en registro, grabaciones y copias.</translation>
    </message>
    <message>
      <source>Louder {louder}, softer {softer}</source>
      <translation>Más alto {louder}, más bajo {softer}</translation>
    </message>
    <message>
      <source>Low end: the first time, so nothing is known of how it is borne.</source>
      <translation>Extremo bajo: la primera vez, aún no se sabe cómo se tolera.</translation>
    </message>
    <message>
      <source>Low end: {between}.</source>
      <translation>Extremo bajo: {between}.</translation>
    </message>
    <message>
      <source>Lower edge of the band.</source>
      <translation>Borde inferior de la banda.</translation>
    </message>
    <message>
      <source>Mains</source>
      <translation>Red eléctrica</translation>
    </message>
    <message>
      <source>Make a backup in another folder, on another disk.</source>
      <translation>Hacer una copia en otra carpeta, en otro disco.</translation>
    </message>
    <message>
      <source>Make a new one from the recordings: biofeedback rebuild</source>
      <translation>Hacer uno nuevo a partir de las grabaciones: biofeedback rebuild</translation>
    </message>
    <message>
      <source>Make it A</source>
      <translation>Que sea A</translation>
    </message>
    <message>
      <source>Make it B</source>
      <translation>Que sea B</translation>
    </message>
    <message>
      <source>Make room and try again.</source>
      <translation>Hacer sitio e intentarlo de nuevo.</translation>
    </message>
    <message>
      <source>Make room or choose another folder.</source>
      <translation>Hacer sitio o elegir otra carpeta.</translation>
    </message>
    <message>
      <source>Make room or choose another folder; nothing was left behind.</source>
      <translation>Hacer sitio o elegir otra carpeta; no quedó nada a medias.</translation>
    </message>
    <message>
      <source>Make the band narrower</source>
      <translation>Estrechar la banda</translation>
    </message>
    <message>
      <source>Make the band wider</source>
      <translation>Ensanchar la banda</translation>
    </message>
    <message>
      <source>Mark pain 0 to 9 of 10</source>
      <translation>Anotar dolor 0 a 9 de 10</translation>
    </message>
    <message>
      <source>Mark pain 10 of 10</source>
      <translation>Anotar dolor 10 de 10</translation>
    </message>
    <message>
      <source>Mark pain {level} of 10</source>
      <translation>Anotar dolor {level} de 10</translation>
    </message>
    <message>
      <source>Mark the effort of the last set, {level} of 10</source>
      <translation>Anotar el esfuerzo de la última serie, {level} de 10</translation>
    </message>
    <message>
      <source>Marked shaking with the breath held.</source>
      <translation>Temblor marcado con la respiración aguantada.</translation>
    </message>
    <message>
      <source>Marker</source>
      <translation>Marca</translation>
    </message>
    <message>
      <source>Marks</source>
      <translation>Marcas</translation>
    </message>
    <message>
      <source>Masses can fall: secure each one, keep feet and hands from under it, and let nobody sit in the rig. Stay below the cell's rated load.</source>
      <translation>Las masas pueden caer: asegurar cada una, no poner pies ni manos debajo y que nadie se siente en el equipo. No pasar de la carga nominal de la célula.</translation>
    </message>
    <message>
      <source>Maximal test</source>
      <translation>Prueba máxima</translation>
    </message>
    <message>
      <source>Maximal test of {who}</source>
      <translation>Prueba máxima de {who}</translation>
    </message>
    <message>
      <source>Maximal test under way</source>
      <translation>Prueba máxima en curso</translation>
    </message>
    <message>
      <source>Maximal test: find the 100 %</source>
      <translation>Prueba máxima: hallar el 100 %</translation>
    </message>
    <message>
      <source>Maximal test: the best of each visit, by the definition in the chart's title, from calibrated, zeroed, unfiltered force.</source>
      <translation>Prueba máxima: lo mejor de cada visita, según la definición del título de la gráfica, de fuerza calibrada, con cero y sin filtrar.</translation>
    </message>
    <message>
      <source>Maximal tests</source>
      <translation>Pruebas máximas</translation>
    </message>
    <message>
      <source>Maximal tests: {names}.</source>
      <translation>Pruebas máximas: {names}.</translation>
    </message>
    <message>
      <source>Mean force from the first entry to the break.</source>
      <translation>Fuerza media de la primera entrada a la cesión.</translation>
    </message>
    <message>
      <source>Mean force from the first entry to the end of the hold.</source>
      <translation>Fuerza media de la primera entrada al final.</translation>
    </message>
    <message>
      <source>Measured with pain {level} of 10: it may show the pain more than the strength.</source>
      <translation>Medida con dolor {level} de 10: puede mostrar el dolor más que la fuerza.</translation>
    </message>
    <message>
      <source>Measures</source>
      <translation>Medidas</translation>
    </message>
    <message>
      <source>Messages</source>
      <translation>Mensajes</translation>
    </message>
    <message>
      <source>Messages, the newest first</source>
      <translation>Mensajes, el más nuevo primero</translation>
    </message>
    <message>
      <source>Middle of the band.</source>
      <translation>Medio de la banda.</translation>
    </message>
    <message>
      <source>Missed
/min</source>
      <translation>Perdidas
/min</translation>
    </message>
    <message>
      <source>More reps</source>
      <translation>Más repeticiones</translation>
    </message>
    <message>
      <source>Move back</source>
      <translation>Volver atrás</translation>
    </message>
    <message>
      <source>Move it aside and put the right one back from a backup of this logbook. Nothing was changed.</source>
      <translation>Apartarlo y recuperar el correcto de una copia de seguridad de este registro. No se ha cambiado nada.</translation>
    </message>
    <message>
      <source>Move the band down</source>
      <translation>Bajar la banda</translation>
    </message>
    <message>
      <source>Move the band up</source>
      <translation>Subir la banda</translation>
    </message>
    <message>
      <source>Move the marker earlier; with Shift by 100 ms</source>
      <translation>Mover la marca hacia antes; con Mayús, 100 ms</translation>
    </message>
    <message>
      <source>Move the marker later; with Shift by 100 ms</source>
      <translation>Mover la marca hacia después; con Mayús, 100 ms</translation>
    </message>
    <message>
      <source>Move to another one first, and save.</source>
      <translation>Primero pasar a otra, y guardar.</translation>
    </message>
    <message>
      <source>Move to the next stage</source>
      <translation>Pasar a la próxima etapa</translation>
    </message>
    <message>
      <source>Movement</source>
      <translation>Movimiento</translation>
    </message>
    <message>
      <source>Moving</source>
      <translation>En movimiento</translation>
    </message>
    <message>
      <source>Moving the band during a set; each one is kept.</source>
      <translation>Mover la banda durante una serie; cada ajuste queda registrado.</translation>
    </message>
    <message>
      <source>Muscle soreness, if you like</source>
      <translation>Dolor muscular, si se quiere</translation>
    </message>
    <message>
      <source>Must be 0.1 to 50000 N.</source>
      <translation>Debe ser de 0,1 a 50000 N.</translation>
    </message>
    <message>
      <source>Must be a whole number.</source>
      <translation>Debe ser un número entero.</translation>
    </message>
    <message>
      <source>Must be more than 0.</source>
      <translation>Debe ser más de 0.</translation>
    </message>
    <message>
      <source>Must lie above the lower end.</source>
      <translation>Debe estar por encima del extremo inferior.</translation>
    </message>
    <message>
      <source>Must not be passed. Empty for none.</source>
      <translation>No debe superarse. Vacío: ninguno.</translation>
    </message>
    <message>
      <source>N</source>
      <translation>N</translation>
    </message>
    <message>
      <source>N either way</source>
      <translation>N a cada lado</translation>
    </message>
    <message>
      <source>Name</source>
      <translation>Nombre</translation>
    </message>
    <message>
      <source>Name a new folder.</source>
      <translation>Nombrar una carpeta nueva.</translation>
    </message>
    <message>
      <source>Name its logbook, or put the key file back from a backup.</source>
      <translation>Indicar su registro, o recuperar el archivo de clave de una copia de seguridad.</translation>
    </message>
    <message>
      <source>Name one, or left and right, with --columns.</source>
      <translation>Nombrar una, o izquierda y derecha, con --columns.</translation>
    </message>
    <message>
      <source>Name the injured side of the athlete, or choose left or right.</source>
      <translation>Indicar el lado lesionado del atleta, o elegir izquierda o derecha.</translation>
    </message>
    <message>
      <source>Name the task.</source>
      <translation>Dar nombre a la tarea.</translation>
    </message>
    <message>
      <source>Names and recordings are not sealed: whoever has the files can read them. README tells how to change that: “Sealing names and recordings”.</source>
      <translation>Nombres y grabaciones no están sellados: quien tenga los archivos puede leerlos. README dice cómo cambiarlo: «Sealing names and recordings».</translation>
    </message>
    <message>
      <source>Names and recordings are sealed by a passphrase. README tells what that protects: “Sealing names and recordings”.</source>
      <translation>Nombres y grabaciones están sellados con una contraseña. README dice qué protege eso: «Sealing names and recordings».</translation>
    </message>
    <message>
      <source>Names and recordings in it are sealed; codes, forces and dates are not.</source>
      <translation>Nombres y grabaciones están sellados en ella; códigos, fuerzas y fechas no.</translation>
    </message>
    <message>
      <source>Nearly all you have</source>
      <translation>Casi todo lo posible</translation>
    </message>
    <message>
      <source>Needs a reference; type one above, or N.</source>
      <translation>Necesita una referencia; escribirla arriba, o N.</translation>
    </message>
    <message>
      <source>Neither code nor name is found any more in the program's folders and the backups it knows.</source>
      <translation>Ni el código ni el nombre se encuentran ya en las carpetas del programa y las copias que conoce.</translation>
    </message>
    <message>
      <source>Never load a cell beyond its rating; the ceiling warns, it does not hold.</source>
      <translation>No cargar una célula más de lo nominal; el techo avisa, no sujeta.</translation>
    </message>
    <message>
      <source>New athlete</source>
      <translation>Nuevo atleta</translation>
    </message>
    <message>
      <source>New numbness, tingling or weakness.</source>
      <translation>Nuevo adormecimiento, hormigueo o debilidad.</translation>
    </message>
    <message>
      <source>New plan</source>
      <translation>Nuevo plan</translation>
    </message>
    <message>
      <source>New stage</source>
      <translation>Nueva etapa</translation>
    </message>
    <message>
      <source>New task</source>
      <translation>Nueva tarea</translation>
    </message>
    <message>
      <source>Newtons are taken for grams.</source>
      <translation>Newtons se toman por gramos.</translation>
    </message>
    <message>
      <source>Newtons are taken for kilonewtons.</source>
      <translation>Newtons se toman por kilonewtons.</translation>
    </message>
    <message>
      <source>Newtons are taken for pounds and turned into newtons again.</source>
      <translation>Newtons se toman por libras y se convierten otra vez en newtons.</translation>
    </message>
    <message>
      <source>Newtons of a rig that was not calibrated are a guess.</source>
      <translation>Los newtons de un equipo sin calibrar son una conjetura.</translation>
    </message>
    <message>
      <source>Next date</source>
      <translation>Próxima fecha</translation>
    </message>
    <message>
      <source>Next date: {days}</source>
      <translation>Próxima fecha: {days}</translation>
    </message>
    <message>
      <source>Next in the order: {leg}.</source>
      <translation>Sigue en el orden: {leg}.</translation>
    </message>
    <message>
      <source>Next set</source>
      <translation>Próxima serie</translation>
    </message>
    <message>
      <source>Next set begins by itself</source>
      <translation>La próxima serie empieza sola</translation>
    </message>
    <message>
      <source>Next set in {time}</source>
      <translation>Próxima serie en {time}</translation>
    </message>
    <message>
      <source>Next time, by the pain rule</source>
      <translation>Próxima vez, según la regla del dolor</translation>
    </message>
    <message>
      <source>Next: practice {number} of {of}</source>
      <translation>Sigue: práctica {number} de {of}</translation>
    </message>
    <message>
      <source>Next: trial {number} of {of}</source>
      <translation>Sigue: intento {number} de {of}</translation>
    </message>
    <message>
      <source>Night</source>
      <translation>Noche</translation>
    </message>
    <message>
      <source>No backup is known yet. If this disk fails, all is lost that is on it alone: make one now.</source>
      <translation>Todavía no se conoce ninguna copia. Si falla este disco, se pierde lo que solo está en él: conviene hacer una ahora.</translation>
    </message>
    <message>
      <source>No backup was made. {why}</source>
      <translation>No se ha hecho ninguna copia. {why}</translation>
    </message>
    <message>
      <source>No board answers on {port}.</source>
      <translation>Ninguna placa responde en {port}.</translation>
    </message>
    <message>
      <source>No board was found yet. See that the rig is connected.</source>
      <translation>Aún no se encontró ninguna placa. Ver que el equipo está conectado.</translation>
    </message>
    <message>
      <source>No body mass is known.</source>
      <translation>No se conoce la masa corporal.</translation>
    </message>
    <message>
      <source>No candidate could be measured.</source>
      <translation>No se pudo medir ningún candidato.</translation>
    </message>
    <message>
      <source>No candidate gives {rule}. The youngest is {name}, {age_ms:.0f} ms.</source>
      <translation>Ningún candidato cumple: {rule}. El de menor edad es {name}, {age_ms:.0f} ms.</translation>
    </message>
    <message>
      <source>No column names the direction: all readings are taken as rising.</source>
      <translation>Ninguna columna dice el sentido: todas las lecturas se toman como crecientes.</translation>
    </message>
    <message>
      <source>No column names the run: all readings are taken as one run.</source>
      <translation>Ninguna columna dice la vuelta: todas las lecturas se toman como una sola.</translation>
    </message>
    <message>
      <source>No criterion yet: you decide alone.</source>
      <translation>Aún sin criterios: decide solo el profesional.</translation>
    </message>
    <message>
      <source>No difference</source>
      <translation>Sin diferencia</translation>
    </message>
    <message>
      <source>No filter was chosen for this rig before.</source>
      <translation>Antes no se eligió ningún filtro para este equipo.</translation>
    </message>
    <message>
      <source>No fit yet: take points under three loads.</source>
      <translation>Aún sin ajuste: tomar puntos con tres cargas.</translation>
    </message>
    <message>
      <source>No folder is picked yet.</source>
      <translation>Todavía no se ha elegido carpeta.</translation>
    </message>
    <message>
      <source>No load gave two different readings to judge by; repeat the loads.</source>
      <translation>Ninguna carga dio dos lecturas distintas para juzgar; repetir las cargas.</translation>
    </message>
    <message>
      <source>No logbook is open: a test could not be kept.</source>
      <translation>No hay registro abierto: una prueba no se podría guardar.</translation>
    </message>
    <message>
      <source>No lowering rep on this day.</source>
      <translation>Ningún descenso ese día.</translation>
    </message>
    <message>
      <source>No maximal test that can be compared is in this period.</source>
      <translation>No hay en este período prueba máxima que se pueda comparar.</translation>
    </message>
    <message>
      <source>No next practice ramp starts; {key} lets it start.</source>
      <translation>No empieza otra subida de práctica; {key} la deja empezar.</translation>
    </message>
    <message>
      <source>No next rep starts; {key} lets it start.</source>
      <translation>No empieza otra repetición; {key} la deja empezar.</translation>
    </message>
    <message>
      <source>No next trial starts; {key} lets it start.</source>
      <translation>No empieza otro intento; {key} lo deja empezar.</translation>
    </message>
    <message>
      <source>No noise at all from {stuck}: one and the same number comes.</source>
      <translation>Ningún ruido de {stuck}: llega siempre el mismo número.</translation>
    </message>
    <message>
      <source>No number is typed for {side}.</source>
      <translation>No hay número escrito para {side}.</translation>
    </message>
    <message>
      <source>No other board is on the port any more.</source>
      <translation>Ya no hay otra placa en el puerto.</translation>
    </message>
    <message>
      <source>No paired tasks were done yet. A table of pairs can be opened.</source>
      <translation>Aún no se han hecho tareas emparejadas. Puede abrir una tabla de pares.</translation>
    </message>
    <message>
      <source>No plan is followed.</source>
      <translation>No se sigue ningún plan.</translation>
    </message>
    <message>
      <source>No plan yet. New plan begins one, empty or from an example; Open file takes one from a file.</source>
      <translation>Aún no hay plan. Nuevo plan empieza uno, vacío o de un ejemplo; Abrir archivo lo toma de un archivo.</translation>
    </message>
    <message>
      <source>No recordings chosen yet.</source>
      <translation>Aún no se han elegido registros.</translation>
    </message>
    <message>
      <source>No rep is left to skip.</source>
      <translation>No queda repetición que omitir.</translation>
    </message>
    <message>
      <source>No rep was recorded.</source>
      <translation>No se grabó ninguna repetición.</translation>
    </message>
    <message>
      <source>No reps{of_whom} are as chosen</source>
      <translation>Ninguna repetición{of_whom} es como se eligió</translation>
    </message>
    <message>
      <source>No reps{of_whom} are saved yet</source>
      <translation>Aún no hay repeticiones{of_whom} guardadas</translation>
    </message>
    <message>
      <source>No rest between the reps? Save again if it is meant.</source>
      <translation>¿Sin descanso entre las repeticiones? Guardar otra vez si es lo que se quiere.</translation>
    </message>
    <message>
      <source>No rig is connected, so none can be given a filter.</source>
      <translation>No hay equipo conectado al que dar un filtro.</translation>
    </message>
    <message>
      <source>No sample is drawn as live</source>
      <translation>Ninguna muestra se dibuja como en vivo</translation>
    </message>
    <message>
      <source>No samples are coming from the rig. See that it is connected.</source>
      <translation>No llegan muestras del equipo. Ver que está conectado.</translation>
    </message>
    <message>
      <source>No samples are coming.</source>
      <translation>No llegan muestras.</translation>
    </message>
    <message>
      <source>No samples came.</source>
      <translation>No llegaron muestras.</translation>
    </message>
    <message>
      <source>No samples have come yet.</source>
      <translation>Aún no han llegado muestras.</translation>
    </message>
    <message>
      <source>No set is under way.</source>
      <translation>No hay serie en curso.</translation>
    </message>
    <message>
      <source>No set of the logbook matches.</source>
      <translation>Ninguna serie del registro coincide.</translation>
    </message>
    <message>
      <source>No set of today's page was done, so no place is proposed.</source>
      <translation>No se hizo ninguna serie de la página de hoy, así que no se propone lugar.</translation>
    </message>
    <message>
      <source>No set was recorded in this period.</source>
      <translation>No se grabó ninguna serie en este período.</translation>
    </message>
    <message>
      <source>No set yet</source>
      <translation>Aún sin serie</translation>
    </message>
    <message>
      <source>No signal</source>
      <translation>Sin señal</translation>
    </message>
    <message>
      <source>No test of {of} in the last {span}; the latest is of {newest}.</source>
      <translation>Ninguna prueba de {of} en las últimas {span}; la más reciente es del {newest}.</translation>
    </message>
    <message>
      <source>No test of {of} is known.</source>
      <translation>No se conoce ninguna prueba de {of}.</translation>
    </message>
    <message>
      <source>No test that counts yet.</source>
      <translation>Todavía no hay ninguna prueba que cuente.</translation>
    </message>
    <message>
      <source>No trial counts.</source>
      <translation>Ningún intento cuenta.</translation>
    </message>
    <message>
      <source>No trial counts: there is no result.</source>
      <translation>Ningún intento cuenta: no hay resultado.</translation>
    </message>
    <message>
      <source>No trial was stopped.</source>
      <translation>No se detuvo ningún intento.</translation>
    </message>
    <message>
      <source>No usual fault of a unit has this ratio: the scale is wrong.</source>
      <translation>Ningún error habitual de unidad tiene esta proporción: la escala está mal.</translation>
    </message>
    <message>
      <source>No value from before the injury is stated for {side}.</source>
      <translation>No hay valor de antes de la lesión para {side}.</translation>
    </message>
    <message>
      <source>No {definition}{sides} was kept for {of} in the last {span}.</source>
      <translation>No se guardó {definition}{sides} para {of} en las últimas {span}.</translation>
    </message>
    <message>
      <source>No.</source>
      <translation>N.º</translation>
    </message>
    <message>
      <source>Nobody is in the rig while it is checked, and nothing rests on it. Press by hand only, and keep fingers out of joints and straps. A mass hangs low, where nobody stands under it.</source>
      <translation>Nadie está en el equipo mientras se comprueba, y nada se apoya en él. Presionar solo con la mano, sin dedos en articulaciones ni correas. La masa cuelga baja, sin nadie debajo.</translation>
    </message>
    <message>
      <source>Noise
% band</source>
      <translation>Ruido
% banda</translation>
    </message>
    <message>
      <source>Noise
N rms</source>
      <translation>Ruido
N rms</translation>
    </message>
    <message>
      <source>Noise of the isometric test tilts the line on the isometric force down: who tested high by chance seems to lose (regression to the mean).</source>
      <translation>El ruido de la prueba isométrica inclina hacia abajo la recta según la fuerza isométrica: quien midió alto por azar parece perder (regresión a la media).</translation>
    </message>
    <message>
      <source>Nominal calibration for {of}{name}: forces may be some percent wrong. Calibrate with known masses.</source>
      <translation>Calibración nominal de {of}{name}: las fuerzas pueden errar algunos por ciento. Calibrar con masas conocidas.</translation>
    </message>
    <message>
      <source>None of these recordings can be used.</source>
      <translation>Ninguno de estos registros se puede usar.</translation>
    </message>
    <message>
      <source>None of today's sets can be done.</source>
      <translation>Ninguna de las series de hoy se puede hacer.</translation>
    </message>
    <message>
      <source>None over {value:.4f} N</source>
      <translation>Ninguno por encima de {value:.4f} N</translation>
    </message>
    <message>
      <source>None: fewer than two people have all scores.</source>
      <translation>Ninguna: menos de dos personas tienen todos los valores.</translation>
    </message>
    <message>
      <source>Not all is on disk</source>
      <translation>No todo está en el disco</translation>
    </message>
    <message>
      <source>Not begun: a field needs another value, or no rig is on.</source>
      <translation>No empezó: un campo necesita otro valor, o no hay equipo.</translation>
    </message>
    <message>
      <source>Not begun: {message}</source>
      <translation>No empezó: {message}</translation>
    </message>
    <message>
      <source>Not calibrated: the newtons are nominal.</source>
      <translation>Sin calibrar: los newtons son nominales.</translation>
    </message>
    <message>
      <source>Not cross-checked: it takes a recording that was not used for choosing.</source>
      <translation>Sin comprobación: hace falta un registro que no se haya usado para elegir.</translation>
    </message>
    <message>
      <source>Not done: the row had just changed. Please press again.</source>
      <translation>No hecho: la fila acababa de cambiar. Pulsar otra vez.</translation>
    </message>
    <message>
      <source>Not kept yet.</source>
      <translation>Aún sin guardar.</translation>
    </message>
    <message>
      <source>Not kept yet: {result}. {key} keeps it.</source>
      <translation>Aún sin guardar: {result}. {key} lo guarda.</translation>
    </message>
    <message>
      <source>Not known: no set of this period names its rig.</source>
      <translation>No se sabe: ninguna serie de este período nombra su equipo.</translation>
    </message>
    <message>
      <source>Not known: no test in which both sides can be compared.</source>
      <translation>No se sabe: ninguna prueba permite comparar ambos lados.</translation>
    </message>
    <message>
      <source>Not noted: effort is told after a set.</source>
      <translation>No anotado: el esfuerzo se dice tras una serie.</translation>
    </message>
    <message>
      <source>Not noted: the row had just moved. Please press again.</source>
      <translation>No anotado: la fila acababa de moverse. Pulsar otra vez.</translation>
    </message>
    <message>
      <source>Not opened: the row had just moved. Please press again.</source>
      <translation>No abierto: la fila acababa de moverse. Pulsar de nuevo.</translation>
    </message>
    <message>
      <source>Not prescribed yet; type it.</source>
      <translation>Aún sin prescribir; escribirlo.</translation>
    </message>
    <message>
      <source>Not reached:</source>
      <translation>No se alcanza:</translation>
    </message>
    <message>
      <source>Not said yet.</source>
      <translation>Aún no se dijo.</translation>
    </message>
    <message>
      <source>Not saved yet: look at the name.</source>
      <translation>Aún sin guardar: mirar el nombre.</translation>
    </message>
    <message>
      <source>Not saved yet: {where}. Save it first, or close again without it.</source>
      <translation>Aún sin guardar: {where}. Guardarlo antes, o cerrar otra vez sin ello.</translation>
    </message>
    <message>
      <source>Not saved: a field needs another value.</source>
      <translation>No guardado: un campo necesita otro valor.</translation>
    </message>
    <message>
      <source>Not started: a field needs another value.</source>
      <translation>No empezó: un campo necesita otro valor.</translation>
    </message>
    <message>
      <source>Not started: another board is on the port, and no force is read.</source>
      <translation>Sin empezar: hay otra placa en el puerto y no se lee ninguna fuerza.</translation>
    </message>
    <message>
      <source>Not started: no force comes. {why}</source>
      <translation>Sin empezar: no llega fuerza. {why}</translation>
    </message>
    <message>
      <source>Not started: see above. {key} again starts.</source>
      <translation>Sin empezar: véase arriba. {key} otra vez empieza.</translation>
    </message>
    <message>
      <source>Not started: the band is not prescribed yet.</source>
      <translation>No empezó: la banda aún no está prescrita.</translation>
    </message>
    <message>
      <source>Not still yet: the counts spread by {spread_counts:.0f}, and {limit_counts:.0f} is allowed. Let it come to rest.</source>
      <translation>Aún no está quieto: las cuentas varían {spread_counts:.0f}, y se permiten {limit_counts:.0f}. Dejar que repose.</translation>
    </message>
    <message>
      <source>Not taken over: a field needs another value.</source>
      <translation>No adoptado: un campo necesita otro valor.</translation>
    </message>
    <message>
      <source>Not taken yet.</source>
      <translation>Aún no se ha tomado.</translation>
    </message>
    <message>
      <source>Not this one, because</source>
      <translation>Esta no, porque</translation>
    </message>
    <message>
      <source>Not used: column {listed}.</source>
      <translation>No se usa: columna {listed}.</translation>
    </message>
    <message>
      <source>Not yet</source>
      <translation>Aún no</translation>
    </message>
    <message>
      <source>Notch in the timer</source>
      <translation>Muesca en el tiempo</translation>
    </message>
    <message>
      <source>Note</source>
      <translation>Nota</translation>
    </message>
    <message>
      <source>Note down what you typed, take back all, and change it again.</source>
      <translation>Apuntar lo escrito, retirar todo y cambiarlo de nuevo.</translation>
    </message>
    <message>
      <source>Note for next time</source>
      <translation>Nota para la próxima vez</translation>
    </message>
    <message>
      <source>Note on the plan</source>
      <translation>Nota sobre el plan</translation>
    </message>
    <message>
      <source>Note on the stage</source>
      <translation>Nota sobre la etapa</translation>
    </message>
    <message>
      <source>Note: {finding}</source>
      <translation>Nota: {finding}</translation>
    </message>
    <message>
      <source>Noted: {reason}.</source>
      <translation>Anotado: {reason}.</translation>
    </message>
    <message>
      <source>Noted: {text}</source>
      <translation>Anotado: {text}</translation>
    </message>
    <message>
      <source>Notes</source>
      <translation>Notas</translation>
    </message>
    <message>
      <source>Notes may tell who somebody is: they leave this computer only where they are asked for.</source>
      <translation>Las notas pueden decir quién es alguien: salen de este ordenador solo donde se piden.</translation>
    </message>
    <message>
      <source>Notes: {notes}</source>
      <translation>Notas: {notes}</translation>
    </message>
    <message>
      <source>Nothing comes from {source} any more. Look at the cable and at the board's power.</source>
      <translation>Ya no llega nada de {source}. Mirar el cable y la alimentación de la placa.</translation>
    </message>
    <message>
      <source>Nothing had changed since the last one.</source>
      <translation>Nada había cambiado desde la última.</translation>
    </message>
    <message>
      <source>Nothing hung still on it.</source>
      <translation>Nada colgó quieto de ella.</translation>
    </message>
    <message>
      <source>Nothing is lost. Make room and do it again.</source>
      <translation>No se ha perdido nada. Hacer sitio y repetirlo.</translation>
    </message>
    <message>
      <source>Nothing is measured yet.</source>
      <translation>Aún no se ha medido nada.</translation>
    </message>
    <message>
      <source>Nothing is measured yet: a search fills this chart.</source>
      <translation>Aún no hay nada medido: una búsqueda llena esta gráfica.</translation>
    </message>
    <message>
      <source>Nothing is planned for today.</source>
      <translation>Nada previsto para hoy.</translation>
    </message>
    <message>
      <source>Nothing is proposed: stopping is advised.</source>
      <translation>No se propone nada: se aconseja parar.</translation>
    </message>
    <message>
      <source>Nothing of {code} is here.</source>
      <translation>Aquí no hay nada de {code}.</translation>
    </message>
    <message>
      <source>Nothing of {who} was kept yet.</source>
      <translation>Aún no se guardó nada de {who}.</translation>
    </message>
    <message>
      <source>Nothing to put back</source>
      <translation>Nada que devolver</translation>
    </message>
    <message>
      <source>Nothing to show yet.</source>
      <translation>Aún nada que mostrar.</translation>
    </message>
    <message>
      <source>Nothing was changed in this set.</source>
      <translation>No se cambió nada en esta serie.</translation>
    </message>
    <message>
      <source>Nothing was changed within sets or between stages.</source>
      <translation>No se cambió nada dentro de series ni entre etapas.</translation>
    </message>
    <message>
      <source>Nothing was changed.</source>
      <translation>No se cambió nada.</translation>
    </message>
    <message>
      <source>Nothing was changed. Check the disk.</source>
      <translation>No se cambió nada. Revisar el disco.</translation>
    </message>
    <message>
      <source>Nothing was changed. Make room and try again.</source>
      <translation>No se cambió nada. Hacer sitio e intentarlo de nuevo.</translation>
    </message>
    <message>
      <source>Nothing was changed. Take another backup.</source>
      <translation>No se cambió nada. Usar otra copia.</translation>
    </message>
    <message>
      <source>Nothing was done about {code}, or it was erased.</source>
      <translation>No consta nada de {code}, o se borró.</translation>
    </message>
    <message>
      <source>Nothing was done yet.</source>
      <translation>Todavía no se ha hecho nada.</translation>
    </message>
    <message>
      <source>Nothing was planned: beside what was done stands what the sets that were begun asked for.</source>
      <translation>No había nada previsto: junto a lo hecho está lo que pedían las series que se empezaron.</translation>
    </message>
    <message>
      <source>Now at the stage: {name}. The other key moves back.</source>
      <translation>Ahora en la etapa: {name}. La otra tecla vuelve atrás.</translation>
    </message>
    <message>
      <source>Number on the front; {mark} recommended. Keys A and B choose.</source>
      <translation>Número en el frente; {mark} recomendado. Las teclas A y B eligen.</translation>
    </message>
    <message>
      <source>OIML R 111 class {name}</source>
      <translation>OIML R 111, clase {name}</translation>
    </message>
    <message>
      <source>Of a lowering: the force to stay above all the way down.</source>
      <translation>De un descenso: la fuerza que no se debe perder en toda la bajada.</translation>
    </message>
    <message>
      <source>Of the body: 0.7 for 70 % of it.</source>
      <translation>Del cuerpo: 0,7 para el 70 %.</translation>
    </message>
    <message>
      <source>Of the plan, low end: {title}, {band}. Today ({key}) asks of pain.</source>
      <translation>Del plan, extremo bajo: {title}, {band}. Hoy ({key}) pregunta por el dolor.</translation>
    </message>
    <message>
      <source>Of the plan: {title}, {band}. Today ({key}) has its other sets.</source>
      <translation>Del plan: {title}, {band}. En Hoy ({key}) están sus otras series.</translation>
    </message>
    <message>
      <source>Of the power, from 0 to under 4 Hz: slow drift.</source>
      <translation>De la potencia, de 0 a menos de 4 Hz: deriva lenta.</translation>
    </message>
    <message>
      <source>Of the power, from 4 to under 8 Hz.</source>
      <translation>De la potencia, de 4 a menos de 8 Hz.</translation>
    </message>
    <message>
      <source>Of the power, from 8 to under 12 Hz. No diagnosis of tremor.</source>
      <translation>De la potencia, de 8 a menos de 12 Hz. No es diagnóstico de temblor.</translation>
    </message>
    <message>
      <source>Of the record; empty: its number</source>
      <translation>Del registro; vacío: su número</translation>
    </message>
    <message>
      <source>Of the shown value; 60 ms is usual</source>
      <translation>Del valor mostrado; lo habitual es 60 ms</translation>
    </message>
    <message>
      <source>Of this task and side no test is kept: to its test.</source>
      <translation>De esta tarea y este lado no hay prueba guardada: a su prueba.</translation>
    </message>
    <message>
      <source>Of {who} there would go, for good: recordings {recordings}, rows of the logbook {rows}, reports {reports}.</source>
      <translation>De {who} se iría para siempre: grabaciones {recordings}, filas del registro {rows}, informes {reports}.</translation>
    </message>
    <message>
      <source>Off scale: ease off</source>
      <translation>Fuera de escala: aflojar</translation>
    </message>
    <message>
      <source>Off the list, or back on it</source>
      <translation>Fuera de la lista, o de vuelta</translation>
    </message>
    <message>
      <source>Off this list, or back on it</source>
      <translation>Fuera de esta lista, o de vuelta</translation>
    </message>
    <message>
      <source>On</source>
      <translation>En</translation>
    </message>
    <message>
      <source>On Debian and Ubuntu install the package libportaudio2.</source>
      <translation>En Debian y Ubuntu, instalar el paquete libportaudio2.</translation>
    </message>
    <message>
      <source>On another disk, best one that is put away afterwards</source>
      <translation>En otro disco, mejor uno que se guarde aparte después</translation>
    </message>
    <message>
      <source>On another page: back to live</source>
      <translation>En otra página: volver a en vivo</translation>
    </message>
    <message>
      <source>On the mean of both the slope is not sure, so it may be that alone.</source>
      <translation>Según la media de ambas la pendiente no es segura, así que puede ser solo eso.</translation>
    </message>
    <message>
      <source>On which it was measured: 2026-03-09</source>
      <translation>Cuando se midió: 2026-03-09</translation>
    </message>
    <message>
      <source>On {recordings} not used for choosing, it complies with {noise_n:.3g} N rms; the best there is {name} with {best_n:.3g} N.</source>
      <translation>En {recordings} no usados para elegir cumple, con {noise_n:.3g} N rms; el mejor ahí es {name}, con {best_n:.3g} N.</translation>
    </message>
    <message>
      <source>On {recordings} not used for choosing, it does not comply: {age_ms:.0f} ms, overshoot {overshoot_n:.3g} N. Do not rely on it.</source>
      <translation>En {recordings} no usados para elegir no cumple: {age_ms:.0f} ms, rebase {overshoot_n:.3g} N. No se fíe de él.</translation>
    </message>
    <message>
      <source>On {recordings} not used for choosing, it is the best again, with {noise_n:.3g} N rms.</source>
      <translation>En {recordings} no usados para elegir vuelve a ser el mejor, con {noise_n:.3g} N rms.</translation>
    </message>
    <message>
      <source>Once more begins another test.</source>
      <translation>Otra vez empieza otra prueba.</translation>
    </message>
    <message>
      <source>Once more begins the test.</source>
      <translation>Otra vez empieza la prueba.</translation>
    </message>
    <message>
      <source>Once more takes the day against this advice.</source>
      <translation>Otra vez lleva el día a la mesa contra este consejo.</translation>
    </message>
    <message>
      <source>One easy rep for each side before each task</source>
      <translation>Una repetición suave por lado antes de cada tarea</translation>
    </message>
    <message>
      <source>One moment …</source>
      <translation>Un momento …</translation>
    </message>
    <message>
      <source>One more: the two best differ by {d} %, more than {a} %.</source>
      <translation>Uno más: los dos mejores difieren un {d} %, más del {a} %.</translation>
    </message>
    <message>
      <source>One recording</source>
      <translation>Un registro</translation>
    </message>
    <message>
      <source>One rep more in this set</source>
      <translation>Una repetición más en esta serie</translation>
    </message>
    <message>
      <source>One row a person, by code; one column a visit, with the best of that visit.</source>
      <translation>Una fila por persona, por código; una columna por visita, con lo mejor de esa visita.</translation>
    </message>
    <message>
      <source>One step</source>
      <translation>Un paso</translation>
    </message>
    <message>
      <source>One step down</source>
      <translation>Un paso abajo</translation>
    </message>
    <message>
      <source>One step up</source>
      <translation>Un paso arriba</translation>
    </message>
    <message>
      <source>One visit between {low:.0f} and {high:.0f} % need not differ from 100 %.</source>
      <translation>Una visita entre {low:.0f} y {high:.0f} % no tiene por qué diferir del 100 %.</translation>
    </message>
    <message>
      <source>One visit only, left out: {codes}.</source>
      <translation>Con una sola visita, no cuentan: {codes}.</translation>
    </message>
    <message>
      <source>Only the task “{task}”.</source>
      <translation>Solo la tarea «{task}».</translation>
    </message>
    <message>
      <source>Only this athlete (code)</source>
      <translation>Solo este atleta (código)</translation>
    </message>
    <message>
      <source>Only {count} of {wanted} samples came while zero was taken. See that the rig is sending, and take zero again.</source>
      <translation>Solo llegaron {count} de {wanted} muestras al tomar el cero. Ver que el equipo envía y tomar el cero de nuevo.</translation>
    </message>
    <message>
      <source>Only {loads} different loads beside the empty rig: the shape of the curve is little known.</source>
      <translation>Solo {loads} cargas distintas además del equipo vacío: la forma de la curva se conoce poco.</translation>
    </message>
    <message>
      <source>Open (Enter)</source>
      <translation>Abrir (Intro)</translation>
    </message>
    <message>
      <source>Open a plan</source>
      <translation>Abrir un plan</translation>
    </message>
    <message>
      <source>Open a table of pairs</source>
      <translation>Abrir una tabla de pares</translation>
    </message>
    <message>
      <source>Open a table…</source>
      <translation>Abrir una tabla…</translation>
    </message>
    <message>
      <source>Open file</source>
      <translation>Abrir archivo</translation>
    </message>
    <message>
      <source>Open it again.</source>
      <translation>Abrirlo de nuevo.</translation>
    </message>
    <message>
      <source>Opening…</source>
      <translation>Abriendo…</translation>
    </message>
    <message>
      <source>Other</source>
      <translation>Otro</translation>
    </message>
    <message>
      <source>Other side</source>
      <translation>Otro lado</translation>
    </message>
    <message>
      <source>Other task</source>
      <translation>Otra tarea</translation>
    </message>
    <message>
      <source>Outside the prescribed {low:.1f} to {high:.1f} N: allowed, and noted so.</source>
      <translation>Fuera de los {low:.1f} a {high:.1f} N prescritos: permitido, y queda anotado.</translation>
    </message>
    <message>
      <source>Over
N</source>
      <translation>Rebase
N</translation>
    </message>
    <message>
      <source>Overshoot at entry, mean</source>
      <translation>Rebase al entrar, media</translation>
    </message>
    <message>
      <source>Overshoot up to</source>
      <translation>Rebase hasta</translation>
    </message>
    <message>
      <source>PDF (*.pdf)</source>
      <translation>PDF (*.pdf)</translation>
    </message>
    <message>
      <source>Pad or strap</source>
      <translation>Almohadilla o correa</translation>
    </message>
    <message>
      <source>Pages</source>
      <translation>Páginas</translation>
    </message>
    <message>
      <source>Pain</source>
      <translation>Dolor</translation>
    </message>
    <message>
      <source>Pain 0 to {high}: {here}, as today; the band is fixed.</source>
      <translation>Dolor 0 a {high}: {here}, como hoy; la banda es fija.</translation>
    </message>
    <message>
      <source>Pain above the agreed cut ({cut} of 10 unless you set another).</source>
      <translation>Dolor por encima del límite acordado ({cut} de 10 si no se fija otro).</translation>
    </message>
    <message>
      <source>Pain above {high} of {pain_most}: better stop, and ask the treating clinician.</source>
      <translation>Dolor por encima de {high} de {pain_most}: mejor parar y consultar al clínico tratante.</translation>
    </message>
    <message>
      <source>Pain at most {most} of 10 in the last {last}.</source>
      <translation>Dolor como máximo {most} de 10 en las últimas {last}.</translation>
    </message>
    <message>
      <source>Pain in the chosen effort</source>
      <translation>Dolor en el esfuerzo elegido</translation>
    </message>
    <message>
      <source>Pain in the chosen effort was not asked</source>
      <translation>No se preguntó el dolor en el esfuerzo elegido</translation>
    </message>
    <message>
      <source>Pain in the last one</source>
      <translation>Dolor en el último</translation>
    </message>
    <message>
      <source>Pain in the last trial? The answer ends the test.</source>
      <translation>¿Dolor en el último? Responder cierra la prueba.</translation>
    </message>
    <message>
      <source>Pain is asked for after one.</source>
      <translation>El dolor se pregunta después de uno.</translation>
    </message>
    <message>
      <source>Pain is asked for before, during and after, from 0 to 10. Up to {cut} is often taken as acceptable where it has gone by the next morning (Thomeé 1997; Silbernagel 2007). Sources differ, so the cut can be changed; it is advice and no permission.</source>
      <translation>El dolor se pregunta antes, durante y después, de 0 a 10. Hasta {cut} se suele tomar como aceptable si ha pasado a la mañana siguiente (Thomeé 1997; Silbernagel 2007). Las fuentes difieren, así que el límite se puede cambiar; es consejo y no permiso.</translation>
    </message>
    <message>
      <source>Pain last night</source>
      <translation>Dolor anoche</translation>
    </message>
    <message>
      <source>Pain now</source>
      <translation>Dolor ahora</translation>
    </message>
    <message>
      <source>Pain now was not asked yet.</source>
      <translation>Aún no se preguntó el dolor ahora.</translation>
    </message>
    <message>
      <source>Pain of 10: {levels}.</source>
      <translation>Dolor de 10: {levels}.</translation>
    </message>
    <message>
      <source>Pain on {number} of {visits} days with a set: it was not told.</source>
      <translation>Dolor en {number} de {visits} días con una serie: no se dijo.</translation>
    </message>
    <message>
      <source>Pain rule</source>
      <translation>Regla del dolor</translation>
    </message>
    <message>
      <source>Pain the morning after the last session</source>
      <translation>Dolor la mañana tras la última sesión</translation>
    </message>
    <message>
      <source>Pain told since</source>
      <translation>Dolor dicho después</translation>
    </message>
    <message>
      <source>Pain told since: {level} of 10, above the agreed cut of {cut}.</source>
      <translation>Dolor dicho después: {level} de 10, por encima del límite acordado de {cut}.</translation>
    </message>
    <message>
      <source>Pain told since: {level} of 10, not above the agreed cut of {cut}.</source>
      <translation>Dolor dicho después: {level} de 10, no supera el límite acordado de {cut}.</translation>
    </message>
    <message>
      <source>Pain told today: {level} of 10, above the agreed cut of {cut}.</source>
      <translation>Dolor dicho hoy: {level} de 10, por encima del límite acordado de {cut}.</translation>
    </message>
    <message>
      <source>Pain told today: {level} of 10, not above the agreed cut of {cut}.</source>
      <translation>Dolor dicho hoy: {level} de 10, no supera el límite acordado de {cut}.</translation>
    </message>
    <message>
      <source>Pain was not asked for.</source>
      <translation>No se preguntó por el dolor.</translation>
    </message>
    <message>
      <source>Pain was not asked.</source>
      <translation>No se preguntó el dolor.</translation>
    </message>
    <message>
      <source>Pain was not told in this period.</source>
      <translation>No se dijo el dolor en este período.</translation>
    </message>
    <message>
      <source>Pain was told in {whole} of {wanted} so far</source>
      <translation>El dolor se dijo en {whole} de {wanted} hasta ahora</translation>
    </message>
    <message>
      <source>Pain went to {level} of 10, above the cut of {cut}: better stop, and ask the treating clinician before going on. No place is proposed before that.</source>
      <translation>El dolor llegó a {level} de 10, por encima del límite de {cut}: mejor parar y consultar al clínico tratante antes de seguir. Antes no se propone ningún lugar.</translation>
    </message>
    <message>
      <source>Pain {level} in the last effort</source>
      <translation>Dolor {level} en el último esfuerzo</translation>
    </message>
    <message>
      <source>Pain {level} of 10 is noted.</source>
      <translation>Dolor {level} de 10 anotado.</translation>
    </message>
    <message>
      <source>Pain {level} of 10 is taken back; it counts nowhere.</source>
      <translation>Dolor {level} de 10 retirado; no cuenta en ninguna parte.</translation>
    </message>
    <message>
      <source>Pain {level} of 10: stopping is advised; you decide.</source>
      <translation>Dolor {level} de 10: se aconseja parar; decide usted.</translation>
    </message>
    <message>
      <source>Pain {level} of {most} is above the agreed cut of {cut}: better stop, and ask the treating clinician before going on. You decide.</source>
      <translation>Dolor {level} de {most}, por encima del límite acordado de {cut}: mejor parar y consultar al clínico tratante antes de seguir. Decide el profesional.</translation>
    </message>
    <message>
      <source>Pain {pain} of {most} ({when}) is above the cut of {high}: better stop, and ask the treating clinician before going on.</source>
      <translation>Dolor {pain} de {most} ({when}), por encima del límite de {high}: mejor parar y consultar al clínico tratante antes de seguir.</translation>
    </message>
    <message>
      <source>Pain {span}, a rise: {moved}, {in_words}.</source>
      <translation>Dolor {span}, una subida: {moved}, {in_words}.</translation>
    </message>
    <message>
      <source>Pain {span}, also the morning after: {moved}, {in_words}.</source>
      <translation>Dolor {span}, también la mañana siguiente: {moved}, {in_words}.</translation>
    </message>
    <message>
      <source>Pain {span}: low end, {in_words}.</source>
      <translation>Dolor {span}: extremo bajo, {in_words}.</translation>
    </message>
    <message>
      <source>Pain: 0 none to {most} the worst, as told.</source>
      <translation>Dolor: de 0 ninguno a {most} el peor, según se dijo.</translation>
    </message>
    <message>
      <source>Pairs of</source>
      <translation>Pares de</translation>
    </message>
    <message>
      <source>Parquet needs the package pyarrow, which is not installed.</source>
      <translation>Parquet necesita el paquete pyarrow, que no está instalado.</translation>
    </message>
    <message>
      <source>Part of the signal is missing; above the floor for {above} s at least</source>
      <translation>Falta parte de la señal; sobre el suelo al menos {above} s</translation>
    </message>
    <message>
      <source>Passphrase</source>
      <translation>Frase de contraseña</translation>
    </message>
    <message>
      <source>Passphrase lost? With the recovery code, on the command line: biofeedback seal --recover</source>
      <translation>¿Se perdió la frase? Con el código de recuperación, en la línea de comandos: biofeedback seal --recover</translation>
    </message>
    <message>
      <source>Path</source>
      <translation>Trazado</translation>
    </message>
    <message>
      <source>Pause</source>
      <translation>Pausa</translation>
    </message>
    <message>
      <source>Paused</source>
      <translation>En pausa</translation>
    </message>
    <message>
      <source>Period</source>
      <translation>Período</translation>
    </message>
    <message>
      <source>Period {first} to {last}. Made on {made}.</source>
      <translation>Período {first} a {last}. Hecho el {made}.</translation>
    </message>
    <message>
      <source>Place in the range</source>
      <translation>Lugar en el rango</translation>
    </message>
    <message>
      <source>Plan</source>
      <translation>Plan</translation>
    </message>
    <message>
      <source>Plan of {who}</source>
      <translation>Plan de {who}</translation>
    </message>
    <message>
      <source>Plan: stages, and what leads to the next</source>
      <translation>Plan: etapas, y lo que lleva a la próxima</translation>
    </message>
    <message>
      <source>Planned and done</source>
      <translation>Previsto y hecho</translation>
    </message>
    <message>
      <source>Plans</source>
      <translation>Planes</translation>
    </message>
    <message>
      <source>Plans (*.json)</source>
      <translation>Planes (*.json)</translation>
    </message>
    <message>
      <source>Plans of this athlete</source>
      <translation>Planes de este atleta</translation>
    </message>
    <message>
      <source>Plates as sold: about 2 %. Weighed plates: that of the scale.</source>
      <translation>Discos comerciales: cerca del 2 %. Discos pesados: lo de la báscula.</translation>
    </message>
    <message>
      <source>Play {letter}</source>
      <translation>Reproducir {letter}</translation>
    </message>
    <message>
      <source>Play {letter} as live</source>
      <translation>Reproducir {letter} como en vivo</translation>
    </message>
    <message>
      <source>Plays {letter}: {where}.</source>
      <translation>Se reproduce {letter}: {where}.</translation>
    </message>
    <message>
      <source>Please give 0 to 100 %.</source>
      <translation>Dar de 0 a 100 %.</translation>
    </message>
    <message>
      <source>Please give a whole number, 0 to {most}.</source>
      <translation>Dar un número entero, 0 a {most}.</translation>
    </message>
    <message>
      <source>Please give a whole number.</source>
      <translation>Dar un número entero.</translation>
    </message>
    <message>
      <source>Please type a day, such as 2026-03-31.</source>
      <translation>Escribir un día, como 2026-03-31.</translation>
    </message>
    <message>
      <source>Plug in loudspeaker or headphones, then switch sound on again.</source>
      <translation>Conectar altavoz o auriculares y volver a activar el sonido.</translation>
    </message>
    <message>
      <source>Plug its disk in, or pick another folder.</source>
      <translation>Conectar su disco o elegir otra carpeta.</translation>
    </message>
    <message>
      <source>Plug the board in; it is then found by itself.</source>
      <translation>Conectar la placa; después se encuentra sola.</translation>
    </message>
    <message>
      <source>Points</source>
      <translation>Puntos</translation>
    </message>
    <message>
      <source>Posture</source>
      <translation>Postura</translation>
    </message>
    <message>
      <source>Practice ramp {n} of {of}</source>
      <translation>Práctica {n} de {of}</translation>
    </message>
    <message>
      <source>Practice ramps</source>
      <translation>Subidas</translation>
    </message>
    <message>
      <source>Practice score: of a first session, before the task is learnt. Do not build on it alone.</source>
      <translation>Resultado de práctica: de una primera sesión, antes de aprender la tarea. No basarse solo en él.</translation>
    </message>
    <message>
      <source>Practice {number} of {of}</source>
      <translation>Práctica {number} de {of}</translation>
    </message>
    <message>
      <source>Preferences</source>
      <translation>Preferencias</translation>
    </message>
    <message>
      <source>Preferences of this computer</source>
      <translation>Preferencias de este ordenador</translation>
    </message>
    <message>
      <source>Preferences: type, sound, monitors, keys</source>
      <translation>Preferencias: letra, sonido, monitores, teclas</translation>
    </message>
    <message>
      <source>Pregnancy with complications.</source>
      <translation>Embarazo con complicaciones.</translation>
    </message>
    <message>
      <source>Prescribed band</source>
      <translation>Banda prescrita</translation>
    </message>
    <message>
      <source>Press harder. If that was a firm press, the scale is wrong: calibrate.</source>
      <translation>Presionar más fuerte. Si fue una presión firme, la escala está mal: calibrar.</translation>
    </message>
    <message>
      <source>Press more gently; if the force was plainly less, calibrate the cell.</source>
      <translation>Presionar más suave; si la fuerza fue claramente menor, calibrar la célula.</translation>
    </message>
    <message>
      <source>Press this cell alone. If the other still answers, the two touch, or both channels are wired to one cell: look at the frame and the plugs.</source>
      <translation>Presionar solo esta célula. Si la otra sigue respondiendo, se tocan, o ambos canales están en una célula: mirar el bastidor y los enchufes.</translation>
    </message>
    <message>
      <source>Press {cell} firmly with your hand, the way the athlete will load it.</source>
      <translation>Presionar {cell} con firmeza con la mano, como la cargará el atleta.</translation>
    </message>
    <message>
      <source>Print the plan</source>
      <translation>Imprimir el plan</translation>
    </message>
    <message>
      <source>Print to PDF</source>
      <translation>Imprimir en PDF</translation>
    </message>
    <message>
      <source>Progress</source>
      <translation>Progreso</translation>
    </message>
    <message>
      <source>Progress of the backup</source>
      <translation>Avance de la copia</translation>
    </message>
    <message>
      <source>Progress of the check</source>
      <translation>Avance de la comprobación</translation>
    </message>
    <message>
      <source>Progress of the search</source>
      <translation>Avance de la búsqueda</translation>
    </message>
    <message>
      <source>Progress of {who}</source>
      <translation>Progreso de {who}</translation>
    </message>
    <message>
      <source>Progress: tests, training and pain over months</source>
      <translation>Progreso: pruebas, entrenamiento y dolor en meses</translation>
    </message>
    <message>
      <source>Prone knee flexion</source>
      <translation>Flexión de rodilla boca abajo</translation>
    </message>
    <message>
      <source>Proposed. {reason}</source>
      <translation>Propuesto. {reason}</translation>
    </message>
    <message>
      <source>Push or pull, a known force counts up from the empty rig.</source>
      <translation>De empuje o de tracción, una fuerza conocida cuenta hacia arriba desde el equipo vacío.</translation>
    </message>
    <message>
      <source>Put a backup back (biofeedback restore DIR), or make a new one from the recordings (biofeedback rebuild).</source>
      <translation>Recupere una copia de seguridad (biofeedback restore DIR), o haga uno nuevo a partir de las grabaciones (biofeedback rebuild).</translation>
    </message>
    <message>
      <source>Put back</source>
      <translation>Devolver</translation>
    </message>
    <message>
      <source>Put back the one before…</source>
      <translation>Volver al anterior…</translation>
    </message>
    <message>
      <source>Put back what was archived last</source>
      <translation>Devolver lo último archivado</translation>
    </message>
    <message>
      <source>Put it back</source>
      <translation>Devolverlo</translation>
    </message>
    <message>
      <source>Put it back from a backup: nothing opens without it.</source>
      <translation>Recuperarlo de una copia de seguridad: sin él no se abre nada.</translation>
    </message>
    <message>
      <source>Put the logbook back from a backup, or enter them again.</source>
      <translation>Recuperar el registro de una copia de seguridad, o introducirlos de nuevo.</translation>
    </message>
    <message>
      <source>Put {what} back</source>
      <translation>Devolver {what}</translation>
    </message>
    <message>
      <source>RFD 0–100 ms</source>
      <translation>RFD 0–100 ms</translation>
    </message>
    <message>
      <source>RFD 0–200 ms</source>
      <translation>RFD 0–200 ms</translation>
    </message>
    <message>
      <source>RFD 0–50 ms</source>
      <translation>RFD 0–50 ms</translation>
    </message>
    <message>
      <source>RFD steepest</source>
      <translation>RFD máxima</translation>
    </message>
    <message>
      <source>RMSE</source>
      <translation>RECM</translation>
    </message>
    <message>
      <source>RMSE, root mean square error: distance from the centre, squared, mean, root. RMSE² = CE² + VE².</source>
      <translation>RECM, raíz del error cuadrático medio: distancia al centro, al cuadrado, media, raíz. RECM² = EC² + EV².</translation>
    </message>
    <message>
      <source>Ramp
ms</source>
      <translation>Rampa
ms</translation>
    </message>
    <message>
      <source>Range from</source>
      <translation>Rango desde</translation>
    </message>
    <message>
      <source>Range of the set without a plan</source>
      <translation>Rango de la serie sin plan</translation>
    </message>
    <message>
      <source>Reading the backup back: {pct} % done.</source>
      <translation>Releyendo la copia: {pct} % hecho.</translation>
    </message>
    <message>
      <source>Ready</source>
      <translation>Listo</translation>
    </message>
    <message>
      <source>Reason</source>
      <translation>Motivo</translation>
    </message>
    <message>
      <source>Reason of the last change: {reason}</source>
      <translation>Motivo del último cambio: {reason}</translation>
    </message>
    <message>
      <source>Reason: {problem}</source>
      <translation>Motivo: {problem}</translation>
    </message>
    <message>
      <source>Recent heart attack, unstable angina, heart failure, an aneurysm.</source>
      <translation>Infarto reciente, angina inestable, insuficiencia cardiaca, un aneurisma.</translation>
    </message>
    <message>
      <source>Record to another folder</source>
      <translation>Grabar en otra carpeta</translation>
    </message>
    <message>
      <source>Record to another folder, where the disk fails</source>
      <translation>Grabar en otra carpeta, si el disco falla</translation>
    </message>
    <message>
      <source>Record to another folder…</source>
      <translation>Grabar en otra carpeta…</translation>
    </message>
    <message>
      <source>Recording</source>
      <translation>Registro</translation>
    </message>
    <message>
      <source>Recording: no</source>
      <translation>Grabación: no</translation>
    </message>
    <message>
      <source>Recording: yes</source>
      <translation>Grabación: sí</translation>
    </message>
    <message>
      <source>Recordings are replayed through many filters. Age is what the athlete waits, noise what wavers without cause; the rule takes the least noise among those that are young enough.</source>
      <translation>Los registros se reproducen con muchos filtros. La edad es lo que espera el atleta; el ruido, lo que oscila sin causa. La regla toma el de menos ruido entre los de edad suficientemente corta.</translation>
    </message>
    <message>
      <source>Recordings…</source>
      <translation>Registros…</translation>
    </message>
    <message>
      <source>Reference</source>
      <translation>Referencia</translation>
    </message>
    <message>
      <source>Reference is old after</source>
      <translation>La referencia es vieja tras</translation>
    </message>
    <message>
      <source>Reference shows</source>
      <translation>Lectura de referencia</translation>
    </message>
    <message>
      <source>Refused: {finding}</source>
      <translation>Rechazado: {finding}</translation>
    </message>
    <message>
      <source>Reliability</source>
      <translation>Fiabilidad</translation>
    </message>
    <message>
      <source>Reliability can be told once they have.</source>
      <translation>La fiabilidad se podrá decir cuando lo hayan hecho.</translation>
    </message>
    <message>
      <source>Reliability: how far tests may be trusted</source>
      <translation>Fiabilidad: hasta dónde se puede confiar en los tests</translation>
    </message>
    <message>
      <source>Reliability: {title}</source>
      <translation>Fiabilidad: {title}</translation>
    </message>
    <message>
      <source>Rep marks</source>
      <translation>Marcas de repetición</translation>
    </message>
    <message>
      <source>Rep {number} began after {taken} of {asked} s of rest.</source>
      <translation>La repetición {number} empezó tras {taken} de {asked} s de descanso.</translation>
    </message>
    <message>
      <source>Rep {number} of {reps}</source>
      <translation>Repetición {number} de {reps}</translation>
    </message>
    <message>
      <source>Repeat</source>
      <translation>Repetir</translation>
    </message>
    <message>
      <source>Repeat it, or skip it.</source>
      <translation>Repetirla u omitirla.</translation>
    </message>
    <message>
      <source>Repeat one, or plan.</source>
      <translation>Repetir una, o planificar.</translation>
    </message>
    <message>
      <source>Repeat or skip a set that was stopped.</source>
      <translation>Repetir u omitir una serie que se detuvo.</translation>
    </message>
    <message>
      <source>Repeat rep</source>
      <translation>Repetir rep.</translation>
    </message>
    <message>
      <source>Report on {code}, {first} to {last}</source>
      <translation>Informe sobre {code}, {first} a {last}</translation>
    </message>
    <message>
      <source>Report on {who}</source>
      <translation>Informe sobre {who}</translation>
    </message>
    <message>
      <source>Report…</source>
      <translation>Informe…</translation>
    </message>
    <message>
      <source>Reps</source>
      <translation>Reps.</translation>
    </message>
    <message>
      <source>Reps at the desk: {reps}; in the plan: {planned}.</source>
      <translation>Repeticiones en la mesa: {reps}; en el plan: {planned}.</translation>
    </message>
    <message>
      <source>Reps {value}</source>
      <translation>Repeticiones {value}</translation>
    </message>
    <message>
      <source>Residuals</source>
      <translation>Residuos</translation>
    </message>
    <message>
      <source>Residuals of A and B</source>
      <translation>Residuos de A y B</translation>
    </message>
    <message>
      <source>Residuals: ● rising, ▽ falling</source>
      <translation>Residuos: ● subiendo, ▽ bajando</translation>
    </message>
    <message>
      <source>Rest</source>
      <translation>Descanso</translation>
    </message>
    <message>
      <source>Rest after a ramp</source>
      <translation>Tras una subida</translation>
    </message>
    <message>
      <source>Rest after a trial</source>
      <translation>Tras un intento</translation>
    </message>
    <message>
      <source>Rest {time}</source>
      <translation>Descanso {time}</translation>
    </message>
    <message>
      <source>Rest {time}, then {key} starts</source>
      <translation>Descanso {time}; luego, {key} empieza</translation>
    </message>
    <message>
      <source>Rest {value} s</source>
      <translation>Descanso {value} s</translation>
    </message>
    <message>
      <source>Rested</source>
      <translation>Descanso cumplido</translation>
    </message>
    <message>
      <source>Review</source>
      <translation>Revisión</translation>
    </message>
    <message>
      <source>Review: isometric against eccentric, and back</source>
      <translation>Revisión: isométrico frente a excéntrico, y de vuelta</translation>
    </message>
    <message>
      <source>Review: marker 10 ms earlier, right later; with Shift 100 ms</source>
      <translation>Revisión: marca 10 ms antes, derecha después; con Mayús 100 ms</translation>
    </message>
    <message>
      <source>Review: marker to where the rules found it</source>
      <translation>Revisión: la marca a donde la hallaron las reglas</translation>
    </message>
    <message>
      <source>Review: take back the last move of a marker</source>
      <translation>Revisión: deshacer el último movimiento de una marca</translation>
    </message>
    <message>
      <source>Review: the next marker</source>
      <translation>Revisión: la marca siguiente</translation>
    </message>
    <message>
      <source>Review: what was before; with the right key after</source>
      <translation>Revisión: lo que hubo antes; con la tecla derecha, después</translation>
    </message>
    <message>
      <source>Review: zoom in; with − out, with Home all of the rep</source>
      <translation>Revisión: acercar; con − alejar, con Inicio toda la repetición</translation>
    </message>
    <message>
      <source>Rig and calibration</source>
      <translation>Equipo y calibración</translation>
    </message>
    <message>
      <source>Rig {rig} now has {filter}. Kept by {by} in {file}.</source>
      <translation>El equipo {rig} tiene ahora {filter}. Guardado por {by} en {file}.</translation>
    </message>
    <message>
      <source>Rig {rig} now: {filter}, delay {ms:.0f} ms.</source>
      <translation>Equipo {rig} ahora: {filter}, retardo {ms:.0f} ms.</translation>
    </message>
    <message>
      <source>Rig {rig}: {old} becomes {new}. Delay {before:.0f} ms → {after:.0f} ms. From the next set on; recordings keep the filter they were made with.</source>
      <translation>Equipo {rig}: {old} pasa a {new}. Retardo {before:.0f} ms → {after:.0f} ms. Desde la próxima serie; los registros conservan el filtro con que se hicieron.</translation>
    </message>
    <message>
      <source>Right</source>
      <translation>Derecha</translation>
    </message>
    <message>
      <source>Right share of the total over time</source>
      <translation>Parte derecha del total en el tiempo</translation>
    </message>
    <message>
      <source>Ring on the path</source>
      <translation>Anillo en el trazado</translation>
    </message>
    <message>
      <source>Rise of the force in the first 50 ms from its onset, over the time.</source>
      <translation>Subida de la fuerza en los primeros 50 ms desde su inicio, por el tiempo.</translation>
    </message>
    <message>
      <source>Rule: {rule}. Of {candidates} candidates {complying} comply; {name} leaves the least noise, {noise_n:.3g} N rms, at an age of {age_ms:.0f} ms.</source>
      <translation>Regla: {rule}. De {candidates} candidatos cumplen {complying}; {name} deja el menor ruido, {noise_n:.3g} N rms, con una edad de {age_ms:.0f} ms.</translation>
    </message>
    <message>
      <source>Run {missing} has no reading of the empty rig.</source>
      <translation>La vuelta {missing} no tiene lectura del equipo vacío.</translation>
    </message>
    <message>
      <source>Run {run} of {runs}. </source>
      <translation>Ronda {run} de {runs}. </translation>
    </message>
    <message>
      <source>Running order</source>
      <translation>Orden del día</translation>
    </message>
    <message>
      <source>Runs</source>
      <translation>Rondas</translation>
    </message>
    <message>
      <source>Samples at the end of the converter's range: no force is known.</source>
      <translation>Muestras en el extremo del rango del convertidor: no se conoce la fuerza.</translation>
    </message>
    <message>
      <source>Samples that never came.</source>
      <translation>Muestras que nunca llegaron.</translation>
    </message>
    <message>
      <source>Samples were lost or late while zero was taken. Take zero again; if it happens again, look at the cable.</source>
      <translation>Se perdieron o retrasaron muestras al tomar el cero. Tomarlo de nuevo; si se repite, mirar el cable.</translation>
    </message>
    <message>
      <source>Save</source>
      <translation>Guardar</translation>
    </message>
    <message>
      <source>Save a report</source>
      <translation>Guardar un informe</translation>
    </message>
    <message>
      <source>Save a report for athlete and clinician</source>
      <translation>Guardar un informe para atleta y clínico</translation>
    </message>
    <message>
      <source>Save as file</source>
      <translation>Guardar como archivo</translation>
    </message>
    <message>
      <source>Save it in a file first.</source>
      <translation>Guardarlo antes en un archivo.</translation>
    </message>
    <message>
      <source>Save the change, or take it back, first.</source>
      <translation>Primero guardar el cambio o retirarlo.</translation>
    </message>
    <message>
      <source>Save the figures</source>
      <translation>Guardar las cifras</translation>
    </message>
    <message>
      <source>Save the figures…</source>
      <translation>Guardar cifras…</translation>
    </message>
    <message>
      <source>Save the picture</source>
      <translation>Guardar la imagen</translation>
    </message>
    <message>
      <source>Save the picture…</source>
      <translation>Guardar imagen…</translation>
    </message>
    <message>
      <source>Save the plan</source>
      <translation>Guardar el plan</translation>
    </message>
    <message>
      <source>Save the plan as it stands here</source>
      <translation>Guardar el plan como está aquí</translation>
    </message>
    <message>
      <source>Save the plan, or take the change back, first.</source>
      <translation>Primero guardar el plan o retirar el cambio.</translation>
    </message>
    <message>
      <source>Save the report</source>
      <translation>Guardar el informe</translation>
    </message>
    <message>
      <source>Save the table as text (CSV, UTF-8).</source>
      <translation>Guardar la tabla como texto (CSV, UTF-8).</translation>
    </message>
    <message>
      <source>Save what stands in the form</source>
      <translation>Guardar lo que hay en el formulario</translation>
    </message>
    <message>
      <source>Saved reps</source>
      <translation>Repeticiones guardadas</translation>
    </message>
    <message>
      <source>Saved.</source>
      <translation>Guardado.</translation>
    </message>
    <message>
      <source>Saved. The body mass stays; a newer one can be typed.</source>
      <translation>Guardado. La masa corporal queda; se puede escribir una más nueva.</translation>
    </message>
    <message>
      <source>Saved: {path}.</source>
      <translation>Guardado: {path}.</translation>
    </message>
    <message>
      <source>Say in which unit the time column is, or give the rate.</source>
      <translation>Decir en qué unidad está la columna del tiempo, o dar la frecuencia.</translation>
    </message>
    <message>
      <source>Say why it does not count.</source>
      <translation>Decir por qué no cuenta.</translation>
    </message>
    <message>
      <source>Say why the test does not count.</source>
      <translation>Decir por qué la prueba no cuenta.</translation>
    </message>
    <message>
      <source>Says</source>
      <translation>Dice</translation>
    </message>
    <message>
      <source>Scores changed from trial to trial by more than chance, in all people alike: learning, warming up or fatigue. One more trial before the first that counts may help.</source>
      <translation>Los valores cambiaron de un intento a otro más que por azar, igual en todas las personas: aprendizaje, calentamiento o fatiga. Puede ayudar un intento más antes del primero que cuenta.</translation>
    </message>
    <message>
      <source>Scores from a file</source>
      <translation>Valores de un archivo</translation>
    </message>
    <message>
      <source>Scores from a file…</source>
      <translation>Valores de un archivo…</translation>
    </message>
    <message>
      <source>Sealed logbook</source>
      <translation>Registro cifrado</translation>
    </message>
    <message>
      <source>Sealing and opening need a package that is not installed.</source>
      <translation>Para cifrar y abrir hace falta un paquete que no está instalado.</translation>
    </message>
    <message>
      <source>Search</source>
      <translation>Buscar</translation>
    </message>
    <message>
      <source>Search and rig</source>
      <translation>Búsqueda y equipo</translation>
    </message>
    <message>
      <source>Search first, then choose A and B among the candidates.</source>
      <translation>Primero busque; después elija A y B entre los candidatos.</translation>
    </message>
    <message>
      <source>Search, or stop</source>
      <translation>Buscar, o parar</translation>
    </message>
    <message>
      <source>Seated calf</source>
      <translation>Pantorrilla en posición sentada</translation>
    </message>
    <message>
      <source>Seated calf push (invented)</source>
      <translation>Empuje de pantorrilla en posición sentada (inventado)</translation>
    </message>
    <message>
      <source>Seated knee extension</source>
      <translation>Extensión de rodilla</translation>
    </message>
    <message>
      <source>See less, closer</source>
      <translation>Ver menos, más de cerca</translation>
    </message>
    <message>
      <source>See more</source>
      <translation>Ver más</translation>
    </message>
    <message>
      <source>See that the board goes on sending.</source>
      <translation>Ver que la placa sigue enviando.</translation>
    </message>
    <message>
      <source>See that the board is plugged in and has power.</source>
      <translation>Ver que la placa está conectada y tiene corriente.</translation>
    </message>
    <message>
      <source>See that the board is plugged in and sends.</source>
      <translation>Ver que la placa está conectada y envía.</translation>
    </message>
    <message>
      <source>See that the mass hangs free, and that this cell answers.</source>
      <translation>Ver que la masa cuelgue libre y que esta célula responda.</translation>
    </message>
    <message>
      <source>See that this cell is plugged in and that you press this very cell.</source>
      <translation>Ver que esta célula está conectada y que se presiona justo esta.</translation>
    </message>
    <message>
      <source>See that this is the right port and that the board has power.</source>
      <translation>Ver que es el puerto correcto y que la placa tiene corriente.</translation>
    </message>
    <message>
      <source>See what is missing.</source>
      <translation>Ver qué falta.</translation>
    </message>
    <message>
      <source>Seen of all there are</source>
      <translation>Vistos de todos los que hay</translation>
    </message>
    <message>
      <source>Serve on a socket instead.</source>
      <translation>Servir en un socket en su lugar.</translation>
    </message>
    <message>
      <source>Set done</source>
      <translation>Serie hecha</translation>
    </message>
    <message>
      <source>Set ended</source>
      <translation>Serie terminada</translation>
    </message>
    <message>
      <source>Set one in points.</source>
      <translation>Fijar uno en puntos.</translation>
    </message>
    <message>
      <source>Set the baud rate that the board is programmed for.</source>
      <translation>Poner la velocidad en baudios para la que está programada la placa.</translation>
    </message>
    <message>
      <source>Set the cell and the loads, then begin.</source>
      <translation>Preparar la célula y las cargas, y empezar.</translation>
    </message>
    <message>
      <source>Set under way</source>
      <translation>Serie en curso</translation>
    </message>
    <message>
      <source>Set up</source>
      <translation>Ajustes</translation>
    </message>
    <message>
      <source>Set {number} of {of}</source>
      <translation>Serie {number} de {of}</translation>
    </message>
    <message>
      <source>Set-up</source>
      <translation>Montaje</translation>
    </message>
    <message>
      <source>Set-up of the test</source>
      <translation>Preparación de la prueba</translation>
    </message>
    <message>
      <source>Sets</source>
      <translation>Series</translation>
    </message>
    <message>
      <source>Sets at the desk: {sets}; in the plan: {planned}.</source>
      <translation>Series en la mesa: {sets}; en el plan: {planned}.</translation>
    </message>
    <message>
      <source>Sets by week, asked for and done</source>
      <translation>Series por semana, pedidas y hechas</translation>
    </message>
    <message>
      <source>Sets by week, planned and done</source>
      <translation>Series por semana, previstas y hechas</translation>
    </message>
    <message>
      <source>Sets of a day begin by themselves</source>
      <translation>Las series de un día empiezan solas</translation>
    </message>
    <message>
      <source>Sets of this visit</source>
      <translation>Series de esta visita</translation>
    </message>
    <message>
      <source>Sets still to come: {count}. Once more ends the visit.</source>
      <translation>Series pendientes: {count}. Otra vez termina la visita.</translation>
    </message>
    <message>
      <source>Sets whose end is not in the logbook yet: {n}.</source>
      <translation>Series cuyo final aún no está en el registro: {n}.</translation>
    </message>
    <message>
      <source>Sets whose recording was cut off: {n}.</source>
      <translation>Series cuya grabación se cortó: {n}.</translation>
    </message>
    <message>
      <source>Sets with at least one rep that counts, of those planned, or asked for where nothing was planned. A set is whole when all its reps are complete; broken off and begun anew as it was, it is still one set.</source>
      <translation>Series con al menos una repetición que cuenta, de las previstas, o de las pedidas donde no había nada previsto. Una serie está completa cuando lo están todas sus repeticiones; interrumpida y empezada de nuevo tal cual, sigue siendo una serie.</translation>
    </message>
    <message>
      <source>Several rows of one athlete were averaged, because they are not more people: {averaged} of {people} athletes.</source>
      <translation>Se promediaron varias filas de un mismo atleta, porque no son más personas: {averaged} de {people} atletas.</translation>
    </message>
    <message>
      <source>Share: 100 × force / force of the other side of that visit, or of before the injury; noise of its change: {formula} by logarithms, e the typical errors in % (JCGM 100:2008, 5.1.2).</source>
      <translation>Proporción: 100 × fuerza / fuerza del otro lado en esa visita, o de antes de la lesión; ruido de su cambio: {formula} por logaritmos, e los errores típicos en % (JCGM 100:2008, 5.1.2).</translation>
    </message>
    <message>
      <source>Shorten the notes or texts in it.</source>
      <translation>Acortar sus notas o textos.</translation>
    </message>
    <message>
      <source>Shorter hold</source>
      <translation>Mantener menos</translation>
    </message>
    <message>
      <source>Shorter rest</source>
      <translation>Descanso más corto</translation>
    </message>
    <message>
      <source>Shoulder external rotation at the side</source>
      <translation>Rotación externa de hombro, codo al costado</translation>
    </message>
    <message>
      <source>Shoulder internal rotation at the side</source>
      <translation>Rotación interna de hombro, codo al costado</translation>
    </message>
    <message>
      <source>Show what is typed</source>
      <translation>Mostrar lo que se escribe</translation>
    </message>
    <message>
      <source>Show what was archived, to put it back.</source>
      <translation>Mostrar lo archivado, para devolverlo.</translation>
    </message>
    <message>
      <source>Show what would go</source>
      <translation>Ver qué se iría</translation>
    </message>
    <message>
      <source>Shown</source>
      <translation>Se ve</translation>
    </message>
    <message>
      <source>Side</source>
      <translation>Lado</translation>
    </message>
    <message>
      <source>Side and task</source>
      <translation>Lado y tarea</translation>
    </message>
    <message>
      <source>Sides</source>
      <translation>Lados</translation>
    </message>
    <message>
      <source>Signal live: {parts}</source>
      <translation>Señal en vivo: {parts}</translation>
    </message>
    <message>
      <source>Signal of {reps}: {gaps}, {lost}, {saturated}; largest zero drift {drift}.</source>
      <translation>Señal de {reps}: {gaps}, {lost}, {saturated}; mayor deriva del cero: {drift}.</translation>
    </message>
    <message>
      <source>Signal: another board</source>
      <translation>Señal: otra placa</translation>
    </message>
    <message>
      <source>Signal: ended</source>
      <translation>Señal: terminada</translation>
    </message>
    <message>
      <source>Signal: lost</source>
      <translation>Señal: perdida</translation>
    </message>
    <message>
      <source>Signal: no fresh sample</source>
      <translation>Señal: sin muestra reciente</translation>
    </message>
    <message>
      <source>Signal: opening</source>
      <translation>Señal: abriendo</translation>
    </message>
    <message>
      <source>Signal: silent</source>
      <translation>Señal: en silencio</translation>
    </message>
    <message>
      <source>Signal: stale</source>
      <translation>Señal: detenida</translation>
    </message>
    <message>
      <source>Signal: {signal}.</source>
      <translation>Señal: {signal}.</translation>
    </message>
    <message>
      <source>Simulated rig: its newtons are made up.</source>
      <translation>Equipo simulado: sus newtons son inventados.</translation>
    </message>
    <message>
      <source>Simulated rig: sets of this period {sets}, of them simulated {simulated}. Newtons of a simulated set are made up; nothing was measured.</source>
      <translation>Equipo simulado: series de este periodo {sets}, simuladas {simulated}. Los newtons de una serie simulada son inventados; no se midió nada.</translation>
    </message>
    <message>
      <source>Since then {lower:.0f} to {upper:.0f} % may be noise.</source>
      <translation>Desde entonces, de {lower:.0f} a {upper:.0f} % puede ser ruido.</translation>
    </message>
    <message>
      <source>Since when</source>
      <translation>Desde cuándo</translation>
    </message>
    <message>
      <source>Size of the type</source>
      <translation>Tamaño de la letra</translation>
    </message>
    <message>
      <source>Skip</source>
      <translation>Omitir</translation>
    </message>
    <message>
      <source>Skip rep</source>
      <translation>Omitir rep.</translation>
    </message>
    <message>
      <source>Sleep last night, if you like</source>
      <translation>Sueño de anoche, si se quiere</translation>
    </message>
    <message>
      <source>Slope within the holds, % of the reference a second</source>
      <translation>Pendiente dentro de las repeticiones, % de la referencia por segundo</translation>
    </message>
    <message>
      <source>Slow kneeling lowering for the hamstrings</source>
      <translation>Descenso lento de rodillas, isquiotibiales</translation>
    </message>
    <message>
      <source>Small ring: to come. Ring with a dot: under way. Full disc: complete. Half disc: short. Square with a bar: stopped. Cross: void.</source>
      <translation>Anillo pequeño: pendiente. Anillo con punto: en curso. Disco lleno: completa. Medio disco: corta. Cuadrado con barra: detenida. Cruz: nula.</translation>
    </message>
    <message>
      <source>Smallest change from one test to the next that is more than noise: {mdc:.1f} {unit} (MDC, 95 %); {less:.1f} {unit} (90 %).</source>
      <translation>Cambio mínimo de un test al siguiente que es más que ruido: {mdc:.1f} {unit} (MDC, 95 %); {less:.1f} {unit} (90 %).</translation>
    </message>
    <message>
      <source>Smoothed without delay, for looking. Measures stay as they are.</source>
      <translation>Suavizada sin retardo, para mirar. Las medidas no cambian.</translation>
    </message>
    <message>
      <source>So it stood at the end of the period.</source>
      <translation>Así estaba al final del periodo.</translation>
    </message>
    <message>
      <source>Socket {port} cannot be served: {strerror}.</source>
      <translation>El socket {port} no se puede servir: {strerror}.</translation>
    </message>
    <message>
      <source>Something is moving on {cell}: its force spreads by {spreads_n:.2f} N, and {allowed_n:.2f} N is allowed. Let it come to rest and take zero again.</source>
      <translation>Algo se mueve en {cell}: su fuerza varía {spreads_n:.2f} N, y se permiten {allowed_n:.2f} N. Dejar que repose y tomar el cero de nuevo.</translation>
    </message>
    <message>
      <source>Something is pulling on {cell}: it stands {away_n:.1f} N {where} the last zero, and {allowed_n:.1f} N is allowed. Take the load off it and take zero again.</source>
      <translation>Algo tira de {cell}: está {away_n:.1f} N {where} del último cero, y se permiten {allowed_n:.1f} N. Quitar la carga y tomar el cero de nuevo.</translation>
    </message>
    <message>
      <source>Something moved on a cell, or the cell is noisy. Leave the rig alone and check again. If it stays, look at the shield, at the cell's four wires and at the excitation.</source>
      <translation>Algo se movió en una célula, o la célula tiene ruido. No tocar el equipo y comprobar otra vez. Si sigue, mirar la malla, los cuatro hilos de la célula y la alimentación.</translation>
    </message>
    <message>
      <source>Sound</source>
      <translation>Sonido</translation>
    </message>
    <message>
      <source>Sound is for athletes who cannot see a screen: silent inside the band, low pulses below it, high ones above, a chime at the end. Two short pulses every two seconds: the signal is lost.</source>
      <translation>El sonido es para atletas que no pueden ver una pantalla: silencio dentro de la banda, pulsos graves por debajo, agudos por encima, una campana al final. Dos pulsos cortos cada dos segundos: se perdió la señal.</translation>
    </message>
    <message>
      <source>Sound is off.</source>
      <translation>Sonido apagado.</translation>
    </message>
    <message>
      <source>Sound is on.</source>
      <translation>Sonido encendido.</translation>
    </message>
    <message>
      <source>Sound louder; with the down key softer</source>
      <translation>Sonido más alto; con la tecla abajo, más bajo</translation>
    </message>
    <message>
      <source>Sound on and off</source>
      <translation>Sonido sí y no</translation>
    </message>
    <message>
      <source>Sound on or off</source>
      <translation>Sonido sí o no</translation>
    </message>
    <message>
      <source>Spectrum of the noise</source>
      <translation>Espectro del ruido</translation>
    </message>
    <message>
      <source>Spelling of the tolerance</source>
      <translation>Forma de escribir la tolerancia</translation>
    </message>
    <message>
      <source>Spikes</source>
      <translation>Picos</translation>
    </message>
    <message>
      <source>Spread them from the empty rig to the largest force intended.</source>
      <translation>Repartirlas desde el equipo vacío hasta la mayor fuerza prevista.</translation>
    </message>
    <message>
      <source>Stage</source>
      <translation>Etapa</translation>
    </message>
    <message>
      <source>Stages</source>
      <translation>Etapas</translation>
    </message>
    <message>
      <source>Stands for the athlete in files, logs and exports: no name.</source>
      <translation>Representa al atleta en archivos, registros y exportaciones: sin nombre.</translation>
    </message>
    <message>
      <source>Start</source>
      <translation>Empezar</translation>
    </message>
    <message>
      <source>Start again and type it, or name a file that holds it: --passphrase-file FILE</source>
      <translation>Iniciar de nuevo y escribirla, o indicar un archivo que la contenga: --passphrase-file ARCHIVO</translation>
    </message>
    <message>
      <source>Start the set</source>
      <translation>Empezar la serie</translation>
    </message>
    <message>
      <source>Start: 25–40 % for 10 s</source>
      <translation>Comenzar: 25–40 % durante 10 s</translation>
    </message>
    <message>
      <source>Starts by</source>
      <translation>Empieza por</translation>
    </message>
    <message>
      <source>Stay there</source>
      <translation>Así, mantener</translation>
    </message>
    <message>
      <source>Still</source>
      <translation>Quieto</translation>
    </message>
    <message>
      <source>Still the high end</source>
      <translation>Sigue el extremo alto</translation>
    </message>
    <message>
      <source>Still the low end</source>
      <translation>Sigue el extremo bajo</translation>
    </message>
    <message>
      <source>Still the visit of {who}, {day}: what is typed here is not kept. Keep it, or open this page again to leave it.</source>
      <translation>Aún la visita de {who}, {day}: lo escrito aquí no está guardado. Guardarlo, o abrir otra vez esta página para dejarlo.</translation>
    </message>
    <message>
      <source>Still there, or not cleared; look at these yourself:</source>
      <translation>Todavía está, o no se pudo limpiar; hay que mirarlo a mano:</translation>
    </message>
    <message>
      <source>Stillness</source>
      <translation>Quietud</translation>
    </message>
    <message>
      <source>Stop</source>
      <translation>Parar</translation>
    </message>
    <message>
      <source>Stop at once</source>
      <translation>Parar de inmediato</translation>
    </message>
    <message>
      <source>Stop it first.</source>
      <translation>Pararla primero.</translation>
    </message>
    <message>
      <source>Stop it, or cut it short.</source>
      <translation>Pararla, o acortarla.</translation>
    </message>
    <message>
      <source>Stop playing</source>
      <translation>Parar</translation>
    </message>
    <message>
      <source>Stop rules and cautions</source>
      <translation>Reglas para parar y precauciones</translation>
    </message>
    <message>
      <source>Stop the backup</source>
      <translation>Detener la copia</translation>
    </message>
    <message>
      <source>Stop the search</source>
      <translation>Parar la búsqueda</translation>
    </message>
    <message>
      <source>Stop: ends the set at once; nothing is lost</source>
      <translation>Parar: termina la serie al instante; no se pierde nada</translation>
    </message>
    <message>
      <source>Stopped</source>
      <translation>Detenida</translation>
    </message>
    <message>
      <source>Stopped; above the floor for {above} s</source>
      <translation>Detenida; sobre el suelo {above} s</translation>
    </message>
    <message>
      <source>Stopping after the file under way.</source>
      <translation>Se detiene tras el archivo en curso.</translation>
    </message>
    <message>
      <source>Stopping after the recording under way.</source>
      <translation>Se para tras el registro en curso.</translation>
    </message>
    <message>
      <source>Stopping is advised. Ask the treating clinician before going on.</source>
      <translation>Se aconseja parar. Consultar al clínico tratante antes de seguir.</translation>
    </message>
    <message>
      <source>Stopping is advised; you decide.</source>
      <translation>Se aconseja parar; decide usted.</translation>
    </message>
    <message>
      <source>Straps must come off fast. The stop key always works.</source>
      <translation>Las correas deben soltarse rápido. La tecla de parar funciona siempre.</translation>
    </message>
    <message>
      <source>Stronger</source>
      <translation>Más fuerte</translation>
    </message>
    <message>
      <source>Subjects</source>
      <translation>Temas</translation>
    </message>
    <message>
      <source>Such as 5 cm above the outer ankle.</source>
      <translation>Por ejemplo, 5 cm sobre el tobillo externo.</translation>
    </message>
    <message>
      <source>Such as external rotation.</source>
      <translation>Por ejemplo, rotación externa.</translation>
    </message>
    <message>
      <source>Sudden, sharp or popping pain.</source>
      <translation>Dolor súbito, agudo o con chasquido.</translation>
    </message>
    <message>
      <source>Surely inside: from {lower_n:.4g} N (the rig is known to ±{guard_n:.3g} N).</source>
      <translation>Dentro con seguridad: desde {lower_n:.4g} N (el equipo se conoce a ±{guard_n:.3g} N).</translation>
    </message>
    <message>
      <source>Surely inside: from {lower_n:.4g} N to {upper_n:.4g} N (the rig is known to ±{guard_n:.3g} N).</source>
      <translation>Dentro con seguridad: de {lower_n:.4g} N a {upper_n:.4g} N (el equipo se conoce a ±{guard_n:.3g} N).</translation>
    </message>
    <message>
      <source>Swap its two signal wires, or calibrate it again.</source>
      <translation>Cambiar entre sí sus dos hilos de señal, o calibrarla de nuevo.</translation>
    </message>
    <message>
      <source>Swap the days.</source>
      <translation>Intercambiar los días.</translation>
    </message>
    <message>
      <source>Swap the two plugs, or the two sides in the rig profile.</source>
      <translation>Cambiar los dos conectores, o los dos lados en el perfil del equipo.</translation>
    </message>
    <message>
      <source>Symmetry</source>
      <translation>Simetría</translation>
    </message>
    <message>
      <source>Symmetry of both sides at once: {formula}, R and L in newtons, + is right heavier; its noise is 1.96 × its scatter from visit to visit.</source>
      <translation>Simetría de ambos lados a la vez: {formula}, R y L en newtons, + es más peso a la derecha; su ruido es 1,96 × su dispersión entre visitas.</translation>
    </message>
    <message>
      <source>Symmetry of one side at a time: {formula}, of tests of one day; its noise is 1.96 × √(e² + e²) of both sides' typical errors in %.</source>
      <translation>Simetría de un lado cada vez: {formula}, de pruebas de un mismo día; su ruido es 1,96 × √(e² + e²) de los errores típicos de ambos lados en %.</translation>
    </message>
    <message>
      <source>Tables (*.csv *.tsv *.txt)</source>
      <translation>Tablas (*.csv *.tsv *.txt)</translation>
    </message>
    <message>
      <source>Take all load off. If it stays, look at the cell's wires: one that is open or two that are swapped drive the converter to its end.</source>
      <translation>Quitar toda la carga. Si sigue, mirar los hilos de la célula: uno abierto o dos cambiados llevan el convertidor a su extremo.</translation>
    </message>
    <message>
      <source>Take back</source>
      <translation>Retirar</translation>
    </message>
    <message>
      <source>Take back all</source>
      <translation>Retirar todo</translation>
    </message>
    <message>
      <source>Take back the last mark of pain</source>
      <translation>Retirar la última marca de dolor</translation>
    </message>
    <message>
      <source>Take back the last move</source>
      <translation>Deshacer el último movimiento</translation>
    </message>
    <message>
      <source>Take everything off the cells, then take zero of the empty rig.</source>
      <translation>Quitar todo de las células y tomar el cero del equipo vacío.</translation>
    </message>
    <message>
      <source>Take everything off the rig, then begin. It takes ten seconds.</source>
      <translation>Quitar todo del equipo y empezar. Dura diez segundos.</translation>
    </message>
    <message>
      <source>Take four words or more that do not belong together.</source>
      <translation>Usar cuatro palabras o más que no tengan relación entre sí.</translation>
    </message>
    <message>
      <source>Take it back</source>
      <translation>Retirarla</translation>
    </message>
    <message>
      <source>Take it back first.</source>
      <translation>Retirarla primero.</translation>
    </message>
    <message>
      <source>Take it up</source>
      <translation>Retomarla</translation>
    </message>
    <message>
      <source>Take its set from today's page.</source>
      <translation>Tomar su serie de la página de hoy.</translation>
    </message>
    <message>
      <source>Take out</source>
      <translation>Quitar</translation>
    </message>
    <message>
      <source>Take stage out</source>
      <translation>Quitar etapa</translation>
    </message>
    <message>
      <source>Take the last change back, and then the one before it</source>
      <translation>Deshacer el último cambio, y luego el anterior</translation>
    </message>
    <message>
      <source>Take the last point back</source>
      <translation>Retirar el último punto</translation>
    </message>
    <message>
      <source>Take the last step back</source>
      <translation>Deshacer el último paso</translation>
    </message>
    <message>
      <source>Take the mass off.</source>
      <translation>Quitar la masa.</translation>
    </message>
    <message>
      <source>Take the whole day</source>
      <translation>Tomar el día entero</translation>
    </message>
    <message>
      <source>Take this point</source>
      <translation>Tomar este punto</translation>
    </message>
    <message>
      <source>Take this point now</source>
      <translation>Tomar este punto ahora</translation>
    </message>
    <message>
      <source>Take this set to the desk (Ctrl+Return)</source>
      <translation>Llevar esta serie a la mesa (Ctrl+Return)</translation>
    </message>
    <message>
      <source>Take three or more.</source>
      <translation>Tomar tres o más.</translation>
    </message>
    <message>
      <source>Take zero anew: the one with the limb resting was of the athlete before.</source>
      <translation>Tomar cero de nuevo: el de la extremidad en reposo era del atleta anterior.</translation>
    </message>
    <message>
      <source>Take zero of the empty rig</source>
      <translation>Tomar cero con el equipo vacío</translation>
    </message>
    <message>
      <source>Take zero with the limb resting</source>
      <translation>Tomar cero con la extremidad en reposo</translation>
    </message>
    <message>
      <source>Take {force} N</source>
      <translation>Usar {force} N</translation>
    </message>
    <message>
      <source>Take {loads_advised} or more, evenly spread.</source>
      <translation>Tomar {loads_advised} o más, repartidas por igual.</translation>
    </message>
    <message>
      <source>Taken back as a slip, and counted nowhere: {marks}.</source>
      <translation>Retirado por ser un error, sin contar en ninguna parte: {marks}.</translation>
    </message>
    <message>
      <source>Taken back. What you typed stays.</source>
      <translation>Retirado. Lo escrito queda.</translation>
    </message>
    <message>
      <source>Taken back: the 100 % is what it was before.</source>
      <translation>Retirada: el 100 % es el de antes.</translation>
    </message>
    <message>
      <source>Taken back: {load}.</source>
      <translation>Retirado: {load}.</translation>
    </message>
    <message>
      <source>Taken out. Undo brings it back.</source>
      <translation>Quitado. Deshacer lo devuelve.</translation>
    </message>
    <message>
      <source>Taken: {load}, {counts} counts.</source>
      <translation>Tomado: {load}, {counts} cuentas.</translation>
    </message>
    <message>
      <source>Takes out the chosen effort; it stays on record. F10: to the reason.</source>
      <translation>Quita el esfuerzo elegido; sigue en el registro. F10: al motivo.</translation>
    </message>
    <message>
      <source>Takes the pain of the chosen effort back</source>
      <translation>Retira el dolor del esfuerzo elegido</translation>
    </message>
    <message>
      <source>Taking zero for one second: nothing should pull.</source>
      <translation>Tomando cero un segundo: nada debe tirar.</translation>
    </message>
    <message>
      <source>Taking zero for one second: the limb rests in place and stays still.</source>
      <translation>Tomando cero un segundo: la extremidad reposa en su sitio y no se mueve.</translation>
    </message>
    <message>
      <source>Task</source>
      <translation>Tarea</translation>
    </message>
    <message>
      <source>Tasks</source>
      <translation>Tareas</translation>
    </message>
    <message>
      <source>Tasks of this period: {there}.</source>
      <translation>Tareas de este período: {there}.</translation>
    </message>
    <message>
      <source>Tasks: the set-ups forces are compared in</source>
      <translation>Tareas: posiciones en que se comparan fuerzas</translation>
    </message>
    <message>
      <source>Tell which was which</source>
      <translation>Decir cuál era cuál</translation>
    </message>
    <message>
      <source>Tempo</source>
      <translation>Ritmo</translation>
    </message>
    <message>
      <source>Test</source>
      <translation>Prueba</translation>
    </message>
    <message>
      <source>Test done</source>
      <translation>Prueba hecha</translation>
    </message>
    <message>
      <source>Test it</source>
      <translation>Probarla</translation>
    </message>
    <message>
      <source>Test, choose or type one.</source>
      <translation>Probar, elegir o escribir una.</translation>
    </message>
    <message>
      <source>Test, or type one.</source>
      <translation>Probar, o escribir una.</translation>
    </message>
    <message>
      <source>Test: {task}</source>
      <translation>Prueba: {task}</translation>
    </message>
    <message>
      <source>Tests of the club</source>
      <translation>Tests del club</translation>
    </message>
    <message>
      <source>That folder is not here now.</source>
      <translation>Esa carpeta no está ahora.</translation>
    </message>
    <message>
      <source>That is above {cut} of 10.</source>
      <translation>Es más de {cut} de 10.</translation>
    </message>
    <message>
      <source>That is not the code; nothing was erased.</source>
      <translation>Ese no es el código; no se ha borrado nada.</translation>
    </message>
    <message>
      <source>That is {count} day ago: time for the next one.</source>
      <translation>Hace {count} día: toca la siguiente.</translation>
    </message>
    <message>
      <source>That is {count} days ago: time for the next one.</source>
      <translation>Hace {count} días: toca la siguiente.</translation>
    </message>
    <message>
      <source>That is {share:.1f} % of the mean of {mean:.1f} {unit}. A smaller change may be noise.</source>
      <translation>Es el {share:.1f} % de la media de {mean:.1f} {unit}. Un cambio menor puede ser ruido.</translation>
    </message>
    <message>
      <source>That lowering rep: {words}.</source>
      <translation>Ese descenso: {words}.</translation>
    </message>
    <message>
      <source>That was the key of “{what}”, which now has {key}.</source>
      <translation>Esa era la tecla de «{what}», que ahora tiene {key}.</translation>
    </message>
    <message>
      <source>That went down fast; next time brake softly right from the top</source>
      <translation>Bajó rápido; la próxima vez, frenar suave desde arriba</translation>
    </message>
    <message>
      <source>The 100 % of the lowerings to come stays.</source>
      <translation>El 100 % de los descensos pendientes se queda.</translation>
    </message>
    <message>
      <source>The CV after a straight line was taken out: unsteadiness alone.</source>
      <translation>El CV tras quitar una recta: solo la falta de firmeza.</translation>
    </message>
    <message>
      <source>The arrow keys move the band in the range.</source>
      <translation>Las flechas mueven la banda en el rango.</translation>
    </message>
    <message>
      <source>The athlete could not be read back.</source>
      <translation>El atleta no se pudo leer de nuevo.</translation>
    </message>
    <message>
      <source>The athlete's screen is beside the desk again.</source>
      <translation>La pantalla del atleta está de nuevo junto a la mesa.</translation>
    </message>
    <message>
      <source>The athlete's screen is on the other monitor.</source>
      <translation>La pantalla del atleta está en el otro monitor.</translation>
    </message>
    <message>
      <source>The athlete's screen is on {monitor}.</source>
      <translation>La pantalla del atleta está en {monitor}.</translation>
    </message>
    <message>
      <source>The backup in {target} holds {sets} sets, this logbook only {now}, and nothing was erased here since. It is left as it is.</source>
      <translation>La copia en {target} tiene {sets} series, este registro solo {now}, y aquí no se ha borrado nada desde entonces. Queda como está.</translation>
    </message>
    <message>
      <source>The backup is made and was read back whole: the logbook and {count} recording, {size_mb:.1f} MB.</source>
      <translation>La copia está hecha y se ha releído entera: el registro y {count} grabación, {size_mb:.1f} MB.</translation>
    </message>
    <message>
      <source>The backup is made and was read back whole: the logbook and {count} recordings, {size_mb:.1f} MB.</source>
      <translation>La copia está hecha y se ha releído entera: el registro y {count} grabaciones, {size_mb:.1f} MB.</translation>
    </message>
    <message>
      <source>The band at the desk is not prescribed yet: type its centre there.</source>
      <translation>La banda en la mesa aún no está prescrita: escribir allí su centro.</translation>
    </message>
    <message>
      <source>The band cannot be held against the plan: {why}</source>
      <translation>La banda no se puede comparar con el plan: {why}</translation>
    </message>
    <message>
      <source>The band is fixed: nothing is left to the day.</source>
      <translation>La banda es fija: el día no decide nada.</translation>
    </message>
    <message>
      <source>The band is fixed; {between}.</source>
      <translation>La banda es fija; {between}.</translation>
    </message>
    <message>
      <source>The band is fixed; {risen}</source>
      <translation>La banda es fija; {risen}</translation>
    </message>
    <message>
      <source>The band is not prescribed yet.</source>
      <translation>La banda aún no está prescrita.</translation>
    </message>
    <message>
      <source>The band is on {here}; in the plan it is on {there}.</source>
      <translation>La banda es sobre {here}; en el plan es sobre {there}.</translation>
    </message>
    <message>
      <source>The band is the prescribed one.</source>
      <translation>La banda es la prescrita.</translation>
    </message>
    <message>
      <source>The band reaches above the plan's ceiling of {ceiling} N.</source>
      <translation>La banda pasa del techo del plan, {ceiling} N.</translation>
    </message>
    <message>
      <source>The band was never entered: there is no entry.</source>
      <translation>Nunca se entró en la banda: no hay entrada.</translation>
    </message>
    <message>
      <source>The band was {least:.1f} to {most:.1f} points of the reference wide: a wider one is easier to stay in.</source>
      <translation>La banda tuvo de {least:.1f} a {most:.1f} puntos de la referencia de ancho: en una más ancha es más fácil quedarse.</translation>
    </message>
    <message>
      <source>The band, {band}, is outside what the plan prescribes, {range}.</source>
      <translation>La banda, {band}, está fuera de lo que prescribe el plan, {range}.</translation>
    </message>
    <message>
      <source>The board answers but has stopped sending. It is asked to start again.</source>
      <translation>La placa responde pero ha dejado de enviar. Se le pide que empiece otra vez.</translation>
    </message>
    <message>
      <source>The board answers but sends no samples yet.</source>
      <translation>La placa responde pero aún no envía muestras.</translation>
    </message>
    <message>
      <source>The board answers but {which} no data. Look at the wiring between the board and the load-cell amplifier.</source>
      <translation>La placa responde pero {which} sin datos. Mirar el cableado entre la placa y el amplificador de la célula.</translation>
    </message>
    <message>
      <source>The board has not printed enough lines of numbers yet.</source>
      <translation>La placa aún no ha impreso bastantes líneas de números.</translation>
    </message>
    <message>
      <source>The board is settling.</source>
      <translation>La placa se está estabilizando.</translation>
    </message>
    <message>
      <source>The board is still settling. Take zero again in a moment.</source>
      <translation>La placa aún se está estabilizando. Tomar el cero de nuevo en un momento.</translation>
    </message>
    <message>
      <source>The board says it is sending, but no samples arrive. Look at the cable, and at the baud rate.</source>
      <translation>La placa dice que envía, pero no llegan muestras. Mirar el cable y la velocidad en baudios.</translation>
    </message>
    <message>
      <source>The board sends 1 channel and the rig profile “{name}” describes {described}.</source>
      <translation>La placa envía 1 canal y el perfil del equipo «{name}» describe {described}.</translation>
    </message>
    <message>
      <source>The board sends one and the same number all the time: no force is shown. Press on a cell. If the number stays, look at the wiring and the converter.</source>
      <translation>La placa envía siempre el mismo número: no se muestra la fuerza. Presionar sobre una célula. Si el número no cambia, mirar el cableado y el convertidor.</translation>
    </message>
    <message>
      <source>The board sends something that cannot be read. Let it print one or two numbers a line, and look at its baud rate.</source>
      <translation>La placa envía algo que no se puede leer. Que imprima uno o dos números por línea, y mirar su velocidad en baudios.</translation>
    </message>
    <message>
      <source>The board sends stream number {stream}. Streams that are understood: {streams}.</source>
      <translation>La placa envía el flujo número {stream}. Flujos que se entienden: {streams}.</translation>
    </message>
    <message>
      <source>The board sends {count} channels and the rig profile “{name}” describes {described}.</source>
      <translation>La placa envía {count} canales y el perfil del equipo «{name}» describe {described}.</translation>
    </message>
    <message>
      <source>The board speaks version {board} of the wire, this program {own}. {update}</source>
      <translation>La placa habla la versión {board} del protocolo y este programa la {own}. {update}</translation>
    </message>
    <message>
      <source>The calibration turns the sign. Swap the wires only together with a new calibration.</source>
      <translation>La calibración cambia el signo. Cambiar los hilos solo junto con una nueva calibración.</translation>
    </message>
    <message>
      <source>The calibrations could not be looked up: {error}</source>
      <translation>No se pudieron buscar las calibraciones: {error}</translation>
    </message>
    <message>
      <source>The ceiling was below this floor and is taken out.</source>
      <translation>El techo estaba por debajo de este suelo y se quita.</translation>
    </message>
    <message>
      <source>The ceiling: a force that must not be passed.</source>
      <translation>El techo: una fuerza que no se debe pasar.</translation>
    </message>
    <message>
      <source>The cell</source>
      <translation>La célula</translation>
    </message>
    <message>
      <source>The cell bends far more than a sound one; have it looked at.</source>
      <translation>La célula se curva mucho más que una sana; conviene hacerla revisar.</translation>
    </message>
    <message>
      <source>The cell is</source>
      <translation>La célula está</translation>
    </message>
    <message>
      <source>The cell is at its stop: too much load, or its wiring.</source>
      <translation>La célula está en su tope: demasiada carga, o su cableado.</translation>
    </message>
    <message>
      <source>The chime at the end of a hold. The ceiling warning is louder still:
try it before the athlete puts headphones on.</source>
      <translation>La campana al final. El aviso del techo suena más alto:
probar antes de que el atleta se ponga auriculares.</translation>
    </message>
    <message>
      <source>The clock adds up all time in the band.</source>
      <translation>El reloj suma todo el tiempo en la banda.</translation>
    </message>
    <message>
      <source>The clock counts on from the first entry, whatever happens.</source>
      <translation>El reloj sigue desde la primera entrada, pase lo que pase.</translation>
    </message>
    <message>
      <source>The clock of this computer was set back by {amount}. Entries keep their order and go on by the time before. If that time was wrong, close the program after the set and open it again.</source>
      <translation>El reloj de este equipo se atrasó {amount}. Las anotaciones conservan su orden y siguen con la hora anterior. Si esa hora era incorrecta, cierre el programa después de la serie y ábralo de nuevo.</translation>
    </message>
    <message>
      <source>The clock reached the hold.</source>
      <translation>El reloj llegó al tiempo pedido.</translation>
    </message>
    <message>
      <source>The clock starts again after a lapse.</source>
      <translation>El reloj vuelve a empezar tras una salida.</translation>
    </message>
    <message>
      <source>The code once more, to erase</source>
      <translation>El código otra vez, para borrar</translation>
    </message>
    <message>
      <source>The counts are the same at all loads.</source>
      <translation>Las cuentas son iguales con todas las cargas.</translation>
    </message>
    <message>
      <source>The counts do not follow the load.</source>
      <translation>Las cuentas no siguen la carga.</translation>
    </message>
    <message>
      <source>The counts fall as the load grows: the signal wires of this cell are reversed, or it is pulled where it should be pushed.</source>
      <translation>Las cuentas bajan al crecer la carga: los hilos de señal de esta célula están invertidos, o se tira donde habría que empujar.</translation>
    </message>
    <message>
      <source>The counts have not moved since the last point. See that the load was changed, and that it hangs on this cell.</source>
      <translation>Las cuentas no se han movido desde el último punto. Ver que se cambió la carga y que cuelga de esta célula.</translation>
    </message>
    <message>
      <source>The curve turns back within the range, so that two forces would give the same counts.</source>
      <translation>La curva se vuelve dentro del rango, de modo que dos fuerzas darían las mismas cuentas.</translation>
    </message>
    <message>
      <source>The day is at the desk: {key} begins.</source>
      <translation>El día está en la mesa: {key} empieza.</translation>
    </message>
    <message>
      <source>The disk has not answered for {timeout_s:g} s; the end of the recording may be missing.</source>
      <translation>El disco no responde desde hace {timeout_s:g} s; puede faltar el final de la grabación.</translation>
    </message>
    <message>
      <source>The dose in % of sets without a reference, which shows as –.</source>
      <translation>La dosis en % de series sin referencia, que se muestra como –.</translation>
    </message>
    <message>
      <source>The eccentric peak is above the isometric peak.</source>
      <translation>El pico excéntrico está por encima del isométrico.</translation>
    </message>
    <message>
      <source>The eccentric peak is not above the isometric peak: {parts}.</source>
      <translation>El pico excéntrico no está por encima del isométrico: {parts}.</translation>
    </message>
    <message>
      <source>The end of the recording could not be kept.</source>
      <translation>No se pudo guardar el final de la grabación.</translation>
    </message>
    <message>
      <source>The eye told no difference.</source>
      <translation>La vista no encontró diferencia.</translation>
    </message>
    <message>
      <source>The figures are in {path}.</source>
      <translation>Las cifras están en {path}.</translation>
    </message>
    <message>
      <source>The filter could not be looked up: {error}</source>
      <translation>No se pudo consultar el filtro: {error}</translation>
    </message>
    <message>
      <source>The first column, “{names}”, is taken as a code.</source>
      <translation>La primera columna, «{names}», se toma como código.</translation>
    </message>
    <message>
      <source>The first row holds numbers: it is read as a row, not as names.</source>
      <translation>La primera fila tiene números: se lee como fila, no como nombres.</translation>
    </message>
    <message>
      <source>The first row names the columns, for example mass_kg,indication,direction,run.</source>
      <translation>La primera fila nombra las columnas, por ejemplo mass_kg,indication,direction,run.</translation>
    </message>
    <message>
      <source>The floor follows the new peak of the paired task.</source>
      <translation>El suelo sigue al nuevo pico de la tarea pareja.</translation>
    </message>
    <message>
      <source>The force has not come back to zero, so the rep cannot end: {cell} shows {force_n:+.1f} N. If nothing rests on it, stop the set and take zero.</source>
      <translation>La fuerza no ha vuelto a cero, así que la repetición no puede terminar: {cell} muestra {force_n:+.1f} N. Si nada se apoya en ella, parar la serie y tomar cero.</translation>
    </message>
    <message>
      <source>The force has not come back to zero, so the trial cannot end: {cell} shows {force_n:+.1f} N. If nothing rests on it, stop the test and take zero.</source>
      <translation>La fuerza no ha vuelto a cero, así que el intento no puede terminar: {cell} muestra {force_n:+.1f} N. Si nada se apoya en ella, parar la prueba y tomar cero.</translation>
    </message>
    <message>
      <source>The force is hidden while it is inside.</source>
      <translation>La fuerza se oculta mientras está dentro.</translation>
    </message>
    <message>
      <source>The force is withheld during the rep and shown after it.</source>
      <translation>La fuerza se oculta en la repetición y se muestra después.</translation>
    </message>
    <message>
      <source>The force now, inside the band.</source>
      <translation>La fuerza ahora, dentro de la banda.</translation>
    </message>
    <message>
      <source>The force now, outside; it points to the band.</source>
      <translation>La fuerza ahora, fuera; señala hacia la banda.</translation>
    </message>
    <message>
      <source>The force now, while nothing is asked for.</source>
      <translation>La fuerza ahora, mientras no se pide nada.</translation>
    </message>
    <message>
      <source>The force that is 100 %, with where it comes from and its date.</source>
      <translation>La fuerza que es el 100 %, con su origen y su fecha.</translation>
    </message>
    <message>
      <source>The force that is 100 %.</source>
      <translation>La fuerza que es el 100 %.</translation>
    </message>
    <message>
      <source>The force that the band applies to: total, or the working side.</source>
      <translation>La fuerza a la que se aplica la banda: el total, o el lado que trabaja.</translation>
    </message>
    <message>
      <source>The force was inside; hatched: it was outside.</source>
      <translation>La fuerza estuvo dentro; rayada: estuvo fuera.</translation>
    </message>
    <message>
      <source>The force was let go before the clock reached the hold.</source>
      <translation>Se soltó la fuerza antes de que el reloj llegara al tiempo pedido.</translation>
    </message>
    <message>
      <source>The form as it was saved</source>
      <translation>El formulario como se guardó</translation>
    </message>
    <message>
      <source>The higher counts until “pain now” is answered anew.</source>
      <translation>Cuenta el más alto hasta responder de nuevo «dolor ahora».</translation>
    </message>
    <message>
      <source>The highest force in % of the cell's rated load.</source>
      <translation>La fuerza mayor en % de la carga nominal de la célula.</translation>
    </message>
    <message>
      <source>The highest force of a lowering, from start to letting go.</source>
      <translation>La fuerza mayor de un descenso, del inicio a soltar.</translation>
    </message>
    <message>
      <source>The highest force of a maximal trial.</source>
      <translation>La fuerza mayor de un intento máximo.</translation>
    </message>
    <message>
      <source>The highest force of the hold.</source>
      <translation>La fuerza mayor de la repetición.</translation>
    </message>
    <message>
      <source>The highest mean over 0.5 s of a maximal trial.</source>
      <translation>La media mayor en 0,5 s de un intento máximo.</translation>
    </message>
    <message>
      <source>The highest mean over 1 s of a maximal trial.</source>
      <translation>La media mayor en 1 s de un intento máximo.</translation>
    </message>
    <message>
      <source>The hold of {hold_s:g} s is longer than the plan's {planned_s:g} s.</source>
      <translation>La contracción de {hold_s:g} s dura más que la del plan, {planned_s:g} s.</translation>
    </message>
    <message>
      <source>The isometric partner was not tested with these sides yet. Test it, or type a floor.</source>
      <translation>La pareja isométrica aún no se probó con estos lados. Probarla o escribir un suelo.</translation>
    </message>
    <message>
      <source>The isometric peak of the task that this lowering is paired with:
the best of today, else the latest.</source>
      <translation>El pico isométrico de la tarea pareja de este descenso:
lo mejor de hoy, si no lo último.</translation>
    </message>
    <message>
      <source>The isometric task whose peak is the least for this lowering.</source>
      <translation>La tarea isométrica cuyo pico es lo mínimo para este descenso.</translation>
    </message>
    <message>
      <source>The kept maximal test “{task}” ({sides}) of {date} stays as it is, {force_n:.1f} N: test again where this trial made it.</source>
      <translation>La prueba máxima guardada «{task}» ({sides}) del {date} se queda como está, {force_n:.1f} N: repetirla si salió de este intento.</translation>
    </message>
    <message>
      <source>The last set once more</source>
      <translation>La última serie otra vez</translation>
    </message>
    <message>
      <source>The last set was stopped.</source>
      <translation>La última serie se detuvo.</translation>
    </message>
    <message>
      <source>The latest {n} saved reps{of_whom}; scroll for more</source>
      <translation>Las últimas {n} repeticiones{of_whom} guardadas; desplazar para ver más</translation>
    </message>
    <message>
      <source>The left side's part of the total force.</source>
      <translation>La parte del lado izquierdo en la fuerza total.</translation>
    </message>
    <message>
      <source>The left side, everywhere.</source>
      <translation>El lado izquierdo, en todas partes.</translation>
    </message>
    <message>
      <source>The limit is reached; the two best differ by {d} %.</source>
      <translation>Se llegó al límite; los dos mejores difieren un {d} %.</translation>
    </message>
    <message>
      <source>The line on the mean of both is free of that where both forces are equally noisy.</source>
      <translation>La recta según la media de ambas está libre de eso si las dos fuerzas tienen el mismo ruido.</translation>
    </message>
    <message>
      <source>The line on the {level} crosses zero beyond the levels that were seen; there it is a guess.</source>
      <translation>La recta según la {level} cruza el cero fuera de los niveles observados; ahí es una conjetura.</translation>
    </message>
    <message>
      <source>The lines are for</source>
      <translation>Las líneas son para</translation>
    </message>
    <message>
      <source>The lines are for another force and are not drawn.</source>
      <translation>Las líneas son para otra fuerza y no se dibujan.</translation>
    </message>
    <message>
      <source>The load should hang on the {loaded} cell, but the {answered} cell answered.</source>
      <translation>La carga debería colgar de la célula {loaded}, pero respondió la célula {answered}.</translation>
    </message>
    <message>
      <source>The loads cover {span_n:.4g} N; the rig is to show {intended_n:.4g} N.</source>
      <translation>Las cargas cubren {span_n:.4g} N; el equipo debe mostrar {intended_n:.4g} N.</translation>
    </message>
    <message>
      <source>The loads lie so close together that they give no slope.</source>
      <translation>Las cargas están tan juntas que no dan ninguna pendiente.</translation>
    </message>
    <message>
      <source>The logbook cannot be written: {error}</source>
      <translation>No se puede escribir el registro: {error}</translation>
    </message>
    <message>
      <source>The logbook has no set yet.</source>
      <translation>El registro aún no tiene ninguna serie.</translation>
    </message>
    <message>
      <source>The logbook is being written again.</source>
      <translation>El registro se vuelve a escribir.</translation>
    </message>
    <message>
      <source>The logbook is in use just now.</source>
      <translation>El registro está en uso en este momento.</translation>
    </message>
    <message>
      <source>The logbook was left as it is. Mend this row, or put the logbook back from a backup.</source>
      <translation>El registro se ha dejado como está. Corregir esta fila, o recuperar el registro de una copia de seguridad.</translation>
    </message>
    <message>
      <source>The longer of delay and lag in ramps, a sample and half a frame</source>
      <translation>El mayor entre retardo y demora en rampas, una muestra y media imagen</translation>
    </message>
    <message>
      <source>The lowerings to come follow the new peak.</source>
      <translation>Los descensos pendientes siguen el nuevo pico.</translation>
    </message>
    <message>
      <source>The mark of pain is taken back.</source>
      <translation>La marca de dolor queda retirada.</translation>
    </message>
    <message>
      <source>The marker back to where the rules found it</source>
      <translation>La marca de vuelta a donde la hallaron las reglas</translation>
    </message>
    <message>
      <source>The marker that keys move; Ctrl+Space: the next.</source>
      <translation>La marca que mueven las teclas; Ctrl+Espacio: la siguiente.</translation>
    </message>
    <message>
      <source>The message before, or advice</source>
      <translation>El mensaje anterior, o consejo</translation>
    </message>
    <message>
      <source>The most that was told in or right after the set of this rep.</source>
      <translation>El mayor que se dijo en la serie de esta repetición o justo después.</translation>
    </message>
    <message>
      <source>The name beside the code</source>
      <translation>El nombre junto al código</translation>
    </message>
    <message>
      <source>The newest of this task: {force} N, {definition}, {date}.</source>
      <translation>Lo más nuevo de esta tarea: {force} N, {definition}, {date}.</translation>
    </message>
    <message>
      <source>The newest plan that is not archived is the one that is followed.</source>
      <translation>Se sigue el plan más nuevo que no está archivado.</translation>
    </message>
    <message>
      <source>The newest visit in the logbook is of {day}, {time}: later than the clock of this computer. Set the clock right, or what is newest cannot be told.</source>
      <translation>La visita más reciente del registro es del {day}, {time}: posterior al reloj de este equipo. Ponga el reloj en hora; si no, no se sabe qué es lo más reciente.</translation>
    </message>
    <message>
      <source>The newest {count}.</source>
      <translation>Las {count} más recientes.</translation>
    </message>
    <message>
      <source>The newtons of the other side are not known here.</source>
      <translation>Aquí no se conocen los newtons del otro lado.</translation>
    </message>
    <message>
      <source>The next effort is a trial.</source>
      <translation>El próximo esfuerzo es un intento.</translation>
    </message>
    <message>
      <source>The next practice ramp may start.</source>
      <translation>La próxima subida de práctica puede empezar.</translation>
    </message>
    <message>
      <source>The next rep may start.</source>
      <translation>La próxima repetición puede empezar.</translation>
    </message>
    <message>
      <source>The next set has the nudged band, {band}; prescribed: {prescribed}.</source>
      <translation>La próxima serie tiene la banda ajustada, {band}; prescrita: {prescribed}.</translation>
    </message>
    <message>
      <source>The next trial may start.</source>
      <translation>El próximo intento puede empezar.</translation>
    </message>
    <message>
      <source>The next view</source>
      <translation>La vista siguiente</translation>
    </message>
    <message>
      <source>The numbers are grams that are taken for newtons.</source>
      <translation>Los números son gramos tomados por newtons.</translation>
    </message>
    <message>
      <source>The numbers are kilograms that are taken for newtons.</source>
      <translation>Los números son kilogramos tomados por newtons.</translation>
    </message>
    <message>
      <source>The numbers are kilonewtons that are taken for newtons.</source>
      <translation>Los números son kilonewtons tomados por newtons.</translation>
    </message>
    <message>
      <source>The numbers are pounds that are taken for newtons.</source>
      <translation>Los números son libras tomadas por newtons.</translation>
    </message>
    <message>
      <source>The numbers may be counts without a calibration.</source>
      <translation>Los números pueden ser cuentas sin calibración.</translation>
    </message>
    <message>
      <source>The numbers were multiplied by gravity once too often.</source>
      <translation>Los números se multiplicaron por la gravedad una vez de más.</translation>
    </message>
    <message>
      <source>The order is over. Visit shows what was done.</source>
      <translation>El orden terminó. Visita muestra lo hecho.</translation>
    </message>
    <message>
      <source>The part of the program for sound is not installed.</source>
      <translation>La parte del programa para el sonido no está instalada.</translation>
    </message>
    <message>
      <source>The passphrase is longer than {most} characters.</source>
      <translation>La frase de contraseña tiene más de {most} caracteres.</translation>
    </message>
    <message>
      <source>The passphrase is shorter than {least} characters.</source>
      <translation>La frase de contraseña tiene menos de {least} caracteres.</translation>
    </message>
    <message>
      <source>The path stands still and turns page by page, the timer fills by
whole seconds, the balance moves four times a second, nothing blinks.</source>
      <translation>El trazado queda quieto y pasa de página en página, el tiempo se llena por
segundos enteros, el equilibrio se mueve cuatro veces por segundo, nada parpadea.</translation>
    </message>
    <message>
      <source>The period ends on {last}, before {first}.</source>
      <translation>El período termina el {last}, antes del {first}.</translation>
    </message>
    <message>
      <source>The picture has met a fault of its own and stands still. The recording goes on: stop the set, then open the window again. The log tells more.</source>
      <translation>La imagen tuvo un fallo propio y está parada. La grabación sigue: parar la serie y abrir la ventana de nuevo. El registro de fallos dice más.</translation>
    </message>
    <message>
      <source>The picture is in {path}.</source>
      <translation>La imagen está en {path}.</translation>
    </message>
    <message>
      <source>The plan</source>
      <translation>El plan</translation>
    </message>
    <message>
      <source>The plan as it was saved</source>
      <translation>El plan como se guardó</translation>
    </message>
    <message>
      <source>The plan does not ask for “{task}” with these sides ({sides}).</source>
      <translation>El plan no pide «{task}» con estos lados ({sides}).</translation>
    </message>
    <message>
      <source>The plan is an invented example.</source>
      <translation>El plan es un ejemplo inventado.</translation>
    </message>
    <message>
      <source>The plan is back.</source>
      <translation>El plan está de vuelta.</translation>
    </message>
    <message>
      <source>The plan is in {path}.</source>
      <translation>El plan está en {path}.</translation>
    </message>
    <message>
      <source>The plan names the athlete: “{text}”. Take the name out, or press again.</source>
      <translation>El plan nombra al atleta: «{text}». Quitar el nombre, o pulsar otra vez.</translation>
    </message>
    <message>
      <source>The plan of {who} is not saved. Save it, or take it back.</source>
      <translation>El plan de {who} no está guardado. Guardarlo o retirarlo.</translation>
    </message>
    <message>
      <source>The plan was changed elsewhere meanwhile.</source>
      <translation>El plan se cambió mientras tanto en otro sitio.</translation>
    </message>
    <message>
      <source>The plan “{name}” cannot be read: {problem}</source>
      <translation>El plan «{name}» no se puede leer: {problem}</translation>
    </message>
    <message>
      <source>The plan's ceiling of {ceiling} N is not set at the desk.</source>
      <translation>El techo del plan, {ceiling} N, no está puesto en la mesa.</translation>
    </message>
    <message>
      <source>The plan's set waits on Today ({key}): {why}</source>
      <translation>La serie del plan espera en Hoy ({key}): {why}</translation>
    </message>
    <message>
      <source>The port {name} is gone.</source>
      <translation>El puerto {name} ya no está.</translation>
    </message>
    <message>
      <source>The port {name} is not open.</source>
      <translation>El puerto {name} no está abierto.</translation>
    </message>
    <message>
      <source>The port {port} cannot be opened: {error}.</source>
      <translation>No se puede abrir el puerto {port}: {error}.</translation>
    </message>
    <message>
      <source>The port {port} is in use by another program.</source>
      <translation>Otro programa usa el puerto {port}.</translation>
    </message>
    <message>
      <source>The port {port} may not be opened.</source>
      <translation>El puerto {port} no se puede abrir: falta permiso.</translation>
    </message>
    <message>
      <source>The position is lost, or a strap or pad slips.</source>
      <translation>Se pierde la posición, o resbala una correa o almohadilla.</translation>
    </message>
    <message>
      <source>The practitioner decides. Newtons alone do not compare people: mass, lever and angle matter.</source>
      <translation>Decide el profesional. Los newtons solos no comparan personas: cuentan masa, palanca y ángulo.</translation>
    </message>
    <message>
      <source>The profile “{profile_name}” has {channels} channels and the board {sent}.</source>
      <translation>El perfil «{profile_name}» tiene {channels} canales y la placa {sent}.</translation>
    </message>
    <message>
      <source>The program advises; the treating clinician and local rules decide. Sharp or sudden pain, dizziness or pain in the chest: stop.</source>
      <translation>El programa aconseja; deciden el clínico tratante y las reglas locales. Dolor agudo o súbito, mareo o dolor en el pecho: parar.</translation>
    </message>
    <message>
      <source>The program advises; the treating clinician decides. At pain or doubt: stop.</source>
      <translation>El programa aconseja; decide el clínico tratante. Ante dolor o duda: parar.</translation>
    </message>
    <message>
      <source>The program cannot tell the club's noise of this test yet.</source>
      <translation>El programa aún no puede decir el ruido de este test en el club.</translation>
    </message>
    <message>
      <source>The program could not let go of the rig. What was recorded so far is on disk; pull the cable before the window is opened again. The log tells more.</source>
      <translation>El programa no pudo soltar el equipo. Lo grabado hasta ahora está en el disco; quitar el cable antes de abrir la ventana de nuevo. El registro de fallos dice más.</translation>
    </message>
    <message>
      <source>The program has met a fault of its own and no longer reads the rig. What was recorded is kept. Open the rig again; the log tells more.</source>
      <translation>El programa tuvo un fallo propio y ya no lee el equipo. Lo grabado se conserva. Abrir el equipo de nuevo; el registro de sucesos dice más.</translation>
    </message>
    <message>
      <source>The program has met a fault of its own, and the work was given up. The log tells more.</source>
      <translation>El programa ha tenido un fallo propio y se abandonó el trabajo. El registro de incidencias dice más.</translation>
    </message>
    <message>
      <source>The program measures and advises. The practitioner decides; what the treating clinician says and local rules go first. When in doubt: stop.</source>
      <translation>El programa mide y aconseja. Decide el profesional; lo que diga el clínico tratante y las reglas locales van primero. Ante la duda: parar.</translation>
    </message>
    <message>
      <source>The program proposes; you and the treating clinician decide.</source>
      <translation>El programa propone; deciden el profesional y el clínico tratante.</translation>
    </message>
    <message>
      <source>The program stood still for a while. Begin when all is ready.</source>
      <translation>El programa estuvo parado un rato. Empezar cuando todo esté listo.</translation>
    </message>
    <message>
      <source>The program uses for the club now: typical error {error:.1f} N, 95 % interval {low:.1f} to {high:.1f} N, smallest change {mdc:.1f} N, from {tests} tests of {people} people. It takes all their visits, and a change common to all counts as noise in it; above that is taken out. Who has enough visits is judged by his or her own.</source>
      <translation>El programa usa ahora para el club: error típico {error:.1f} N, intervalo del 95 % de {low:.1f} a {high:.1f} N, cambio mínimo {mdc:.1f} N, de {tests} tests de {people} personas. Toma todas sus visitas y cuenta como ruido un cambio común a todos; arriba ese cambio se ha quitado. A quien tiene visitas suficientes se le juzga por las suyas.</translation>
    </message>
    <message>
      <source>The ramp began after {taken} of {asked} s of rest.</source>
      <translation>La subida empezó tras {taken} de {asked} s de descanso.</translation>
    </message>
    <message>
      <source>The reading at the largest load equals that at no load.</source>
      <translation>La lectura con la carga mayor es igual a la de sin carga.</translation>
    </message>
    <message>
      <source>The reading at {force_n:.4g} N ({direction}, run {run}) lies {share_pct:.2g} % of the span off the curve; the limit is {limit_pct:g} %.</source>
      <translation>La lectura a {force_n:.4g} N ({direction}, ronda {run}) está a {share_pct:.2g} % del rango de la curva; el límite es {limit_pct:g} %.</translation>
    </message>
    <message>
      <source>The recorder has stopped because of a fault in this program; what was written so far can be recovered.</source>
      <translation>La grabación se detuvo por un fallo de este programa; lo escrito hasta ahora se puede recuperar.</translation>
    </message>
    <message>
      <source>The recording cannot be written and there is no memory left to keep it in: the signal is being lost from here on.</source>
      <translation>No se puede escribir la grabación y no queda memoria donde guardarla: desde aquí la señal se pierde.</translation>
    </message>
    <message>
      <source>The recording cannot be written: {error}</source>
      <translation>No se puede escribir la grabación: {error}</translation>
    </message>
    <message>
      <source>The recording cannot be written: {place}: {reason}.</source>
      <translation>No se puede escribir la grabación: {place}: {reason}.</translation>
    </message>
    <message>
      <source>The recording goes on in {folder}, whole from its beginning.</source>
      <translation>La grabación sigue en {folder}, completa desde el principio.</translation>
    </message>
    <message>
      <source>The recording goes on in {folder}; its first part stands where it was begun.</source>
      <translation>La grabación sigue en {folder}; su primera parte está donde se empezó.</translation>
    </message>
    <message>
      <source>The recording is back in its folder, {home}.</source>
      <translation>La grabación ha vuelto a su carpeta, {home}.</translation>
    </message>
    <message>
      <source>The recording is being written again.</source>
      <translation>La grabación se vuelve a escribir.</translation>
    </message>
    <message>
      <source>The recording is written in {folder} as before: {error}</source>
      <translation>La grabación se escribe en {folder} como antes: {error}</translation>
    </message>
    <message>
      <source>The recording {path} cannot be noted as elsewhere: {error} Unless it is told to be back, move it to {home} by hand before the next start.</source>
      <translation>No se puede anotar que la grabación {path} está en otro lugar: {error} Si no se avisa de que ha vuelto, muévala a mano a {home} antes del próximo inicio.</translation>
    </message>
    <message>
      <source>The recording {path} is not noted anywhere. Move it to {home} by hand, before the next start.</source>
      <translation>La grabación {path} no está anotada en ningún lugar. Muévala a mano a {home} antes del próximo inicio.</translation>
    </message>
    <message>
      <source>The recording {path} stays there; the next start brings it home.</source>
      <translation>La grabación {path} se queda ahí; el próximo inicio la devuelve a su carpeta.</translation>
    </message>
    <message>
      <source>The recording's {kind} could not be kept: {error}</source>
      <translation>No se pudo guardar una parte de la grabación ({kind}): {error}</translation>
    </message>
    <message>
      <source>The recordings have {there:g} samples a second and the rig {here:g}: settings belong to one rate.</source>
      <translation>Los registros tienen {there:g} muestras por segundo y el equipo {here:g}: los ajustes valen para una sola frecuencia.</translation>
    </message>
    <message>
      <source>The reference is of the very first test: practice alone will raise it.</source>
      <translation>La referencia es de la primera prueba de todas: la práctica sola la subirá.</translation>
    </message>
    <message>
      <source>The reference is {age}; after {stale} a new test is better.</source>
      <translation>Referencia: {age}; tras {stale} es mejor otra prueba.</translation>
    </message>
    <message>
      <source>The reference was measured in another position: {differences}.</source>
      <translation>La referencia se midió en otra posición: {differences}.</translation>
    </message>
    <message>
      <source>The reference was measured with pain {pain} of {most}: it may be too low.</source>
      <translation>La referencia se midió con dolor {pain} de {most}: puede ser demasiado baja.</translation>
    </message>
    <message>
      <source>The rep was not done as meant, or the effort was small.</source>
      <translation>La repetición no se hizo como se pedía, o el esfuerzo fue pequeño.</translation>
    </message>
    <message>
      <source>The report is in {path}.</source>
      <translation>El informe está en {path}.</translation>
    </message>
    <message>
      <source>The result is kept already.</source>
      <translation>El resultado ya está guardado.</translation>
    </message>
    <message>
      <source>The result is not kept.</source>
      <translation>El resultado no está guardado.</translation>
    </message>
    <message>
      <source>The result of a first session with a task, not yet learnt.</source>
      <translation>El resultado de una primera sesión con una tarea, aún sin aprender.</translation>
    </message>
    <message>
      <source>The rig has no {sides} cell.</source>
      <translation>El equipo no tiene célula {sides}.</translation>
    </message>
    <message>
      <source>The rig has this filter already.</source>
      <translation>El equipo ya tiene este filtro.</translation>
    </message>
    <message>
      <source>The rig is known to ±{guard_n:.3g} N; this band is too narrow to say of any force that it is surely inside.</source>
      <translation>El equipo se conoce a ±{guard_n:.3g} N; esta banda es demasiado estrecha para decir de alguna fuerza que está dentro con seguridad.</translation>
    </message>
    <message>
      <source>The rig is no longer read, so nothing can be asked of it.</source>
      <translation>El equipo ya no se lee, así que no se le puede pedir nada.</translation>
    </message>
    <message>
      <source>The rig is well.</source>
      <translation>El equipo está bien.</translation>
    </message>
    <message>
      <source>The right side's part of the total force.</source>
      <translation>La parte del lado derecho en la fuerza total.</translation>
    </message>
    <message>
      <source>The right side, everywhere.</source>
      <translation>El lado derecho, en todas partes.</translation>
    </message>
    <message>
      <source>The run was too short for it, or samples were missing. Check again.</source>
      <translation>La prueba fue demasiado corta para ello, o faltaron muestras. Comprobar otra vez.</translation>
    </message>
    <message>
      <source>The same in % of the reference times seconds, in %·s.</source>
      <translation>Lo mismo en % de la referencia por segundos, en %·s.</translation>
    </message>
    <message>
      <source>The same in % of the width of the band</source>
      <translation>Lo mismo en % del ancho de la banda</translation>
    </message>
    <message>
      <source>The same in the first 100 ms.</source>
      <translation>Lo mismo en los primeros 100 ms.</translation>
    </message>
    <message>
      <source>The same in the first 200 ms.</source>
      <translation>Lo mismo en los primeros 200 ms.</translation>
    </message>
    <message>
      <source>The scores</source>
      <translation>Los valores</translation>
    </message>
    <message>
      <source>The scores repeat exactly, but for a change common to all. Typed or rounded figures do; a force does not.</source>
      <translation>Los valores se repiten exactamente, salvo un cambio común a todos. Eso lo hacen cifras tecleadas o redondeadas; una fuerza, no.</translation>
    </message>
    <message>
      <source>The search was stopped; nothing was kept of it.</source>
      <translation>Se paró la búsqueda; no se guardó nada de ella.</translation>
    </message>
    <message>
      <source>The second monitor is gone: the athlete's screen is here.</source>
      <translation>El segundo monitor ya no está: la pantalla del atleta está aquí.</translation>
    </message>
    <message>
      <source>The set began after {taken} of {asked} s of rest.</source>
      <translation>La serie empezó tras {taken} de {asked} s de descanso.</translation>
    </message>
    <message>
      <source>The set has begun.</source>
      <translation>La serie ha empezado.</translation>
    </message>
    <message>
      <source>The set is not in the logbook yet.</source>
      <translation>La serie aún no está en el registro.</translation>
    </message>
    <message>
      <source>The set is over: all reps were done, {complete} of {reps} complete.</source>
      <translation>La serie ha terminado: todas las repeticiones hechas, {complete} de {reps} completas.</translation>
    </message>
    <message>
      <source>The set is over: {reason}.</source>
      <translation>La serie terminó: {reason}.</translation>
    </message>
    <message>
      <source>The set was stopped within it: it counts only where you say so.</source>
      <translation>La serie se detuvo en él: cuenta solo donde se diga.</translation>
    </message>
    <message>
      <source>The sets of today</source>
      <translation>Las series de hoy</translation>
    </message>
    <message>
      <source>The signal broke off.</source>
      <translation>La señal se cortó.</translation>
    </message>
    <message>
      <source>The signal is there.</source>
      <translation>La señal está.</translation>
    </message>
    <message>
      <source>The signal: all that is known of it</source>
      <translation>La señal: todo lo que se sabe de ella</translation>
    </message>
    <message>
      <source>The sound device cannot be opened: {error}.</source>
      <translation>No se puede abrir el dispositivo de sonido: {error}.</translation>
    </message>
    <message>
      <source>The sound device has stopped.</source>
      <translation>El dispositivo de sonido se ha detenido.</translation>
    </message>
    <message>
      <source>The stage is taken out. Undo brings it back.</source>
      <translation>La etapa está quitada. Deshacer la devuelve.</translation>
    </message>
    <message>
      <source>The stage “{stage_name}” was taken out of the plan.</source>
      <translation>La etapa «{stage_name}» se quitó del plan.</translation>
    </message>
    <message>
      <source>The steepest 20 ms of the first 250 ms. Scatters much more than peak.</source>
      <translation>Los 20 ms más empinados de los primeros 250 ms. Varía mucho más que el pico.</translation>
    </message>
    <message>
      <source>The stored polynomial is up to {largest_error_n:.2g} N off the exact inverse of the fit.</source>
      <translation>El polinomio guardado se aparta hasta {largest_error_n:.2g} N de la inversa exacta del ajuste.</translation>
    </message>
    <message>
      <source>The system's sound library PortAudio is missing.</source>
      <translation>Falta PortAudio, la biblioteca de sonido del sistema.</translation>
    </message>
    <message>
      <source>The table does not say whether it is of one side; the lines may be for another force.</source>
      <translation>La tabla no dice si es de un solo lado; las líneas pueden ser para otra fuerza.</translation>
    </message>
    <message>
      <source>The task names no isometric partner. Choose one in the task.</source>
      <translation>La tarea no nombra pareja isométrica. Elegir una en la tarea.</translation>
    </message>
    <message>
      <source>The task needs a name.</source>
      <translation>La tarea necesita un nombre.</translation>
    </message>
    <message>
      <source>The test has begun.</source>
      <translation>La prueba ha empezado.</translation>
    </message>
    <message>
      <source>The test is not over.</source>
      <translation>La prueba no ha terminado.</translation>
    </message>
    <message>
      <source>The test is over: {reason}.</source>
      <translation>La prueba ha terminado: {reason}.</translation>
    </message>
    <message>
      <source>The test was left aside.</source>
      <translation>La prueba se dejó de lado.</translation>
    </message>
    <message>
      <source>The treating clinician's limits and local rules come first. A plan advises; the practitioner decides each day.</source>
      <translation>Los límites del clínico tratante y las reglas locales van primero. Un plan aconseja; el profesional decide cada día.</translation>
    </message>
    <message>
      <source>The trial began after {taken} of {asked} s of rest.</source>
      <translation>El intento empezó tras {taken} de {asked} s de descanso.</translation>
    </message>
    <message>
      <source>The trials, their spread and what they mean are shown here.</source>
      <translation>Aquí se ven los intentos, su dispersión y lo que significan.</translation>
    </message>
    <message>
      <source>The two best differ by {d} %, within {a} %.</source>
      <translation>Los dos mejores difieren un {d} %, dentro del {a} %.</translation>
    </message>
    <message>
      <source>The two results are {days} apart, more than is set ({most}). Nothing is read into them.</source>
      <translation>Los dos resultados distan {days}, más de lo fijado ({most}). No se interpreta nada.</translation>
    </message>
    <message>
      <source>The typed 100 % is left out, as it is a person's: {places}.</source>
      <translation>El 100 % escrito se deja fuera, pues es de una persona: {places}.</translation>
    </message>
    <message>
      <source>The worst was {told} of 10.</source>
      <translation>El peor fue {told} de 10.</translation>
    </message>
    <message>
      <source>The year, four digits.</source>
      <translation>El año, cuatro cifras.</translation>
    </message>
    <message>
      <source>The zero of the empty rig holds again: the one with the limb resting was of the athlete before.</source>
      <translation>Vale de nuevo el cero en vacío: el de la extremidad en reposo era del atleta anterior.</translation>
    </message>
    <message>
      <source>The zero of {cell} has walked by {walked_n:+.1f} N, {share_pct:.1f} % of its rated load, since {since}. Look at its mounting and cable; if it stays so, calibrate again.</source>
      <translation>El cero de {cell} se ha movido {walked_n:+.1f} N, {share_pct:.1f} % de su carga nominal, desde {since}. Mirar su montaje y su cable; si sigue así, calibrar de nuevo.</translation>
    </message>
    <message>
      <source>The {answered} cell answered instead, by {signed} N: the two are swapped, and its polarity is reversed.</source>
      <translation>Respondió en su lugar la célula {answered}, con {signed} N: las dos están cambiadas y su polaridad está invertida.</translation>
    </message>
    <message>
      <source>The {answered} cell answered instead, by {signed} N: the two are swapped.</source>
      <translation>Respondió en su lugar la célula {answered}, con {signed} N: las dos están cambiadas.</translation>
    </message>
    <message>
      <source>The {answered} cell moved too, {share_pct:.0f} % of the {loaded} cell.</source>
      <translation>La célula {answered} también se movió, un {share_pct:.0f} % de la célula {loaded}.</translation>
    </message>
    <message>
      <source>The {cells} cell gives one and the same number all the time: no force is shown. Press on it. If the number stays, look at its wiring and its converter.</source>
      <translation>La célula {cells} da siempre el mismo número: no se muestra la fuerza. Presionar sobre ella. Si el número no cambia, mirar su cableado y su convertidor.</translation>
    </message>
    <message>
      <source>The {fitted} misses the loads by more than the readings scatter (F = {f:.4g}, p = {p_value:.2g}).</source>
      <translation>La {fitted} no acierta las cargas por más de lo que varían las lecturas (F = {f:.4g}, p = {p_value:.2g}).</translation>
    </message>
    <message>
      <source>The {loaded} cell did not answer to the load.</source>
      <translation>La célula {loaded} no respondió a la carga.</translation>
    </message>
    <message>
      <source>The {name} cell</source>
      <translation>La célula {name}</translation>
    </message>
    <message>
      <source>The {name} cell answered instead.</source>
      <translation>Respondió la célula {name} en su lugar.</translation>
    </message>
    <message>
      <source>The {side} cell</source>
      <translation>La célula {side}</translation>
    </message>
    <message>
      <source>There are: {told}.</source>
      <translation>Hay: {told}.</translation>
    </message>
    <message>
      <source>There is a slip in the recovery code.</source>
      <translation>Hay un error en el código de recuperación.</translation>
    </message>
    <message>
      <source>There is no athlete {athlete_code} in the logbook.</source>
      <translation>No hay atleta {athlete_code} en el registro.</translation>
    </message>
    <message>
      <source>There is no athlete {code} in the logbook.</source>
      <translation>No hay atleta {code} en el registro.</translation>
    </message>
    <message>
      <source>There is no change to give a reason for.</source>
      <translation>No hay cambio al que dar motivo.</translation>
    </message>
    <message>
      <source>There is no change to take back.</source>
      <translation>No hay cambio que deshacer.</translation>
    </message>
    <message>
      <source>There is no logbook to keep it in.</source>
      <translation>No hay registro donde guardarlo.</translation>
    </message>
    <message>
      <source>There is no logbook, so nothing was kept.</source>
      <translation>No hay registro, así que no se guardó nada.</translation>
    </message>
    <message>
      <source>There is no logbook: nothing is known of the athlete.</source>
      <translation>No hay registro: nada se sabe del atleta.</translation>
    </message>
    <message>
      <source>There is no move to take back.</source>
      <translation>No hay movimiento que deshacer.</translation>
    </message>
    <message>
      <source>There is no port {port}.</source>
      <translation>No hay puerto {port}.</translation>
    </message>
    <message>
      <source>There is no reading of the empty rig.</source>
      <translation>No hay lectura del equipo vacío.</translation>
    </message>
    <message>
      <source>There is no second monitor.</source>
      <translation>No hay segundo monitor.</translation>
    </message>
    <message>
      <source>There is no set to change now.</source>
      <translation>Ahora no hay serie que cambiar.</translation>
    </message>
    <message>
      <source>There is no set {set_id} to take up.</source>
      <translation>No hay serie {set_id} que retomar.</translation>
    </message>
    <message>
      <source>There is no sound device.</source>
      <translation>No hay ningún dispositivo de sonido.</translation>
    </message>
    <message>
      <source>There is no task “{task}”.</source>
      <translation>No hay tarea «{task}».</translation>
    </message>
    <message>
      <source>There is nobody to report on yet.</source>
      <translation>Aún no hay de quién informar.</translation>
    </message>
    <message>
      <source>There is too much other noise to tell it.</source>
      <translation>Hay demasiado ruido de otro tipo para saberlo.</translation>
    </message>
    <message>
      <source>There was no effort yet.</source>
      <translation>Aún no hubo ningún esfuerzo.</translation>
    </message>
    <message>
      <source>There whenever there is a second monitor</source>
      <translation>Allí siempre que haya un segundo monitor</translation>
    </message>
    <message>
      <source>These lines have no source that was read; they are common lists.</source>
      <translation>Estas líneas no tienen fuente leída; son listas comunes.</translation>
    </message>
    <message>
      <source>They do not agree within {a} %: the true best may be higher.</source>
      <translation>No coinciden dentro del {a} %: el máximo real puede ser mayor.</translation>
    </message>
    <message>
      <source>This 100 % is that of “{task}”, {sides}.</source>
      <translation>Este 100 % es el de «{task}», {sides}.</translation>
    </message>
    <message>
      <source>This athlete is here now</source>
      <translation>Este atleta está aquí ahora</translation>
    </message>
    <message>
      <source>This athlete is not in the logbook any more.</source>
      <translation>Este atleta ya no está en el registro.</translation>
    </message>
    <message>
      <source>This is not a recovery code: it has 28 letters and figures.</source>
      <translation>Esto no es un código de recuperación: tiene 28 letras y cifras.</translation>
    </message>
    <message>
      <source>This is not the passphrase.</source>
      <translation>Esta no es la frase de contraseña.</translation>
    </message>
    <message>
      <source>This is not the recovery code of this logbook.</source>
      <translation>Este no es el código de recuperación de este registro.</translation>
    </message>
    <message>
      <source>This is the stage under way.</source>
      <translation>Esta es la etapa en curso.</translation>
    </message>
    <message>
      <source>This logbook is on a database server.</source>
      <translation>Este registro está en un servidor de bases de datos.</translation>
    </message>
    <message>
      <source>This logbook is sealed</source>
      <translation>Este registro está cifrado</translation>
    </message>
    <message>
      <source>This set is not on disk yet: it waits in memory and is gone if the computer goes off. {key} records to another folder.</source>
      <translation>Esta serie aún no está en el disco: espera en la memoria y se pierde si el ordenador se apaga. {key} graba en otra carpeta.</translation>
    </message>
    <message>
      <source>This set is on disk: it needs no other folder.</source>
      <translation>Esta serie está en el disco: no necesita otra carpeta.</translation>
    </message>
    <message>
      <source>This system has no pseudo-terminals.</source>
      <translation>Este sistema no tiene pseudoterminales.</translation>
    </message>
    <message>
      <source>This task is not in the logbook any more.</source>
      <translation>Esta tarea ya no está en el registro.</translation>
    </message>
    <message>
      <source>This test was begun already.</source>
      <translation>Esta prueba ya se empezó.</translation>
    </message>
    <message>
      <source>Three show how well it repeats</source>
      <translation>Tres muestran lo bien que se repite</translation>
    </message>
    <message>
      <source>Time above the floor, or the impulse of the force over it.</source>
      <translation>Tiempo sobre el suelo, o el impulso de la fuerza por encima.</translation>
    </message>
    <message>
      <source>Time in the band by week, asked for and done</source>
      <translation>Tiempo en la banda por semana, pedido y hecho</translation>
    </message>
    <message>
      <source>Time in the band by week, planned and done</source>
      <translation>Tiempo en la banda por semana, previsto y hecho</translation>
    </message>
    <message>
      <source>Time in the band that is asked for.</source>
      <translation>Tiempo en la banda que se pide.</translation>
    </message>
    <message>
      <source>Time in the band, from the start to the end of the hold.</source>
      <translation>Tiempo en la banda, del inicio al final.</translation>
    </message>
    <message>
      <source>Time in the band, of reps × hold.</source>
      <translation>Tiempo en la banda, de repeticiones × tiempo.</translation>
    </message>
    <message>
      <source>Time in the band, of the time of the reps</source>
      <translation>Tiempo en la banda, del tiempo de las repeticiones</translation>
    </message>
    <message>
      <source>Time in the band, out of balance, where balance is asked for.</source>
      <translation>Tiempo en la banda, sin equilibrio, donde se pide equilibrio.</translation>
    </message>
    <message>
      <source>Time in the recording</source>
      <translation>Tiempo en el registro</translation>
    </message>
    <message>
      <source>Time of the processor for a sample</source>
      <translation>Tiempo del procesador por muestra</translation>
    </message>
    <message>
      <source>Time over the upper edge.</source>
      <translation>Tiempo por encima del borde superior.</translation>
    </message>
    <message>
      <source>Time since the newest sample was read, plus half a frame until it is drawn;
the live filter's delay comes on top.</source>
      <translation>Tiempo desde que se leyó la muestra más nueva, más medio cuadro hasta dibujarla;
el retardo del filtro en vivo se suma.</translation>
    </message>
    <message>
      <source>Time so far in the band that the rig's uncertainty does not matter.</source>
      <translation>Tiempo hasta ahora en la banda en que la incertidumbre del equipo no importa.</translation>
    </message>
    <message>
      <source>Time under the lower edge.</source>
      <translation>Tiempo por debajo del borde inferior.</translation>
    </message>
    <message>
      <source>Time without a usable signal; the clock stood.</source>
      <translation>Tiempo sin señal útil; el reloj estuvo parado.</translation>
    </message>
    <message>
      <source>To</source>
      <translation>Hasta</translation>
    </message>
    <message>
      <source>To be read with it</source>
      <translation>Léase además</translation>
    </message>
    <message>
      <source>To move on</source>
      <translation>Para avanzar</translation>
    </message>
    <message>
      <source>To move on:</source>
      <translation>Para avanzar:</translation>
    </message>
    <message>
      <source>To move on: {counts}</source>
      <translation>Para avanzar: {counts}</translation>
    </message>
    <message>
      <source>Today</source>
      <translation>Hoy</translation>
    </message>
    <message>
      <source>Today {side}: needs a reference. {missing}</source>
      <translation>Hoy {side}: necesita una referencia. {missing}</translation>
    </message>
    <message>
      <source>Today {side}: {newtons}; 100 % is {force} N of {date}</source>
      <translation>Hoy {side}: {newtons}; el 100 % es {force} N del {date}</translation>
    </message>
    <message>
      <source>Today's order is taken up again; sets still to come: {count}. Next set begins it, End visit leaves it.</source>
      <translation>El orden de hoy se retoma; series pendientes: {count}. Próxima serie lo empieza, Terminar visita lo deja.</translation>
    </message>
    <message>
      <source>Today's order is taken up again; sets still to come: {count}. The last one was not done to its end: Repeat or Skip it.</source>
      <translation>El orden de hoy se retoma; series pendientes: {count}. La última no se hizo hasta el final: Repetir u Omitir.</translation>
    </message>
    <message>
      <source>Today's questions about pain are not answered yet.</source>
      <translation>Las preguntas de hoy sobre el dolor aún no están respondidas.</translation>
    </message>
    <message>
      <source>Today, {date}: {code}, {plan}</source>
      <translation>Hoy, {date}: {code}, {plan}</translation>
    </message>
    <message>
      <source>Today: pain, and the sets that come of it</source>
      <translation>Hoy: dolor, y las series que resultan</translation>
    </message>
    <message>
      <source>Today: take the whole day, set by set</source>
      <translation>Hoy: tomar el día entero, serie a serie</translation>
    </message>
    <message>
      <source>Today: take to the desk against advice</source>
      <translation>Hoy: llevar a la mesa contra el consejo</translation>
    </message>
    <message>
      <source>Told when the plan is saved.</source>
      <translation>Se dice al guardar el plan.</translation>
    </message>
    <message>
      <source>Tolerance</source>
      <translation>Tolerancia</translation>
    </message>
    <message>
      <source>Tolerance: from the centre to an edge.</source>
      <translation>Tolerancia: del centro a un borde.</translation>
    </message>
    <message>
      <source>Too few samples came to measure it.</source>
      <translation>Llegaron muy pocas muestras para medirlo.</translation>
    </message>
    <message>
      <source>Too much: ease off</source>
      <translation>Demasiado: aflojar</translation>
    </message>
    <message>
      <source>Total error squared: its constant and its variable part add up to it.</source>
      <translation>Error total al cuadrado: su parte constante y su parte variable lo suman.</translation>
    </message>
    <message>
      <source>Trial {number} of {of}</source>
      <translation>Intento {number} de {of}</translation>
    </message>
    <message>
      <source>Trial {n} of {of}</source>
      <translation>Intento {n} de {of}</translation>
    </message>
    <message>
      <source>Trials</source>
      <translation>Intentos</translation>
    </message>
    <message>
      <source>Trials, at least</source>
      <translation>Intentos, mín.</translation>
    </message>
    <message>
      <source>Trials, at most</source>
      <translation>Intentos, máx.</translation>
    </message>
    <message>
      <source>Triangle on the path</source>
      <translation>Triángulo en el trazado</translation>
    </message>
    <message>
      <source>Try</source>
      <translation>Probar</translation>
    </message>
    <message>
      <source>Try again in a moment.</source>
      <translation>Probar otra vez en un momento.</translation>
    </message>
    <message>
      <source>Try again when that is done.</source>
      <translation>Probar otra vez cuando termine.</translation>
    </message>
    <message>
      <source>Try again.</source>
      <translation>Probar otra vez.</translation>
    </message>
    <message>
      <source>Try the sound</source>
      <translation>Probar el sonido</translation>
    </message>
    <message>
      <source>Two best within</source>
      <translation>Dos mejores en</translation>
    </message>
    <message>
      <source>Two buttons: page down begins the next set, page up stops.</source>
      <translation>Dos botones: página abajo empieza la próxima serie, página arriba para.</translation>
    </message>
    <message>
      <source>Two scores of a person are nearer than {nearer:.1f} {unit} in 95 % (repeatability; a change common to all is in it).</source>
      <translation>Dos valores de una persona distan menos de {nearer:.1f} {unit} en el 95 % (repetibilidad; incluye un cambio común a todos).</translation>
    </message>
    <message>
      <source>Type 1 for the whole weight.</source>
      <translation>Escribir 1 para todo el peso.</translation>
    </message>
    <message>
      <source>Type a reference</source>
      <translation>Escribir una referencia</translation>
    </message>
    <message>
      <source>Type four digits.</source>
      <translation>Escribir cuatro cifras.</translation>
    </message>
    <message>
      <source>Type it as it was written down.</source>
      <translation>Escribirlo como se anotó.</translation>
    </message>
    <message>
      <source>Type it as year-month-day, such as 2026-01-31.</source>
      <translation>Escribir año-mes-día, como 2026-01-31.</translation>
    </message>
    <message>
      <source>Type metres: 0.35 for 35 cm.</source>
      <translation>Escribir metros: 0,35 para 35 cm.</translation>
    </message>
    <message>
      <source>Type one</source>
      <translation>Escribir una</translation>
    </message>
    <message>
      <source>Type the centre of its band.</source>
      <translation>Escribir el centro de su banda.</translation>
    </message>
    <message>
      <source>Type the passphrase to open it.</source>
      <translation>Escribir la frase de contraseña para abrirlo.</translation>
    </message>
    <message>
      <source>Type the year of birth.</source>
      <translation>Escribir el año de nacimiento.</translation>
    </message>
    <message>
      <source>Type them with a blank between.</source>
      <translation>Escribirlas con un espacio entre ellas.</translation>
    </message>
    <message>
      <source>Type {factor:g} for {factor_2:g} % of it.</source>
      <translation>Escribir {factor:g} para el {factor_2:g} %.</translation>
    </message>
    <message>
      <source>Type {least_pct:g} for {least_pct:g} %.</source>
      <translation>Escribir {least_pct:g} para {least_pct:g} %.</translation>
    </message>
    <message>
      <source>Type {value:g} for {value:g} %.</source>
      <translation>Escribir {value:g} para {value:g} %.</translation>
    </message>
    <message>
      <source>Typical error (SEM): {sem:.2f} {unit}, 95 % interval {low:.2f} to {high:.2f} {unit}; from {scores} scores of {people} people, {df} degrees of freedom.</source>
      <translation>Error típico (SEM): {sem:.2f} {unit}, intervalo del 95 % de {low:.2f} a {high:.2f} {unit}; de {scores} valores de {people} personas, {df} grados de libertad.</translation>
    </message>
    <message>
      <source>Typical error {te} N ({te_pct} %; 95 % interval {low} to {high} N), from {whose}. Between two visits less than {mdc} N ({mdc_pct} %) may be noise.</source>
      <translation>Error típico {te} N ({te_pct} %; intervalo del 95 %: {low} a {high} N), de {whose}. Entre dos visitas, menos de {mdc} N ({mdc_pct} %) puede ser ruido.</translation>
    </message>
    <message>
      <source>Typical error: √(mean square difference of neighbouring visits / 2) from five visits on; of fewer, or of the club, the SD of a person's results, which training makes larger. Noise of a change between two tests: 1.96 × √2 × typical error (95 %). It is an estimate.</source>
      <translation>Error típico: √(media de diferencias² entre visitas vecinas / 2) desde cinco visitas; con menos, o del club, la DE de los resultados de una persona, que el entrenamiento agranda. Ruido de un cambio entre dos pruebas: 1,96 × √2 × error típico (95 %). Es una estimación.</translation>
    </message>
    <message>
      <source>Uncertainty of a shown force, k = 2:</source>
      <translation>Incertidumbre de una fuerza mostrada, k = 2:</translation>
    </message>
    <message>
      <source>Under the floor this time; {floor} N is the floor</source>
      <translation>Esta vez bajo el suelo; el suelo es {floor} N</translation>
    </message>
    <message>
      <source>Undo</source>
      <translation>Deshacer</translation>
    </message>
    <message>
      <source>Undo change</source>
      <translation>Deshacer cambio</translation>
    </message>
    <message>
      <source>Undo move</source>
      <translation>Deshacer movimiento</translation>
    </message>
    <message>
      <source>Unit of the ceiling</source>
      <translation>Unidad del techo</translation>
    </message>
    <message>
      <source>Unit of the centre</source>
      <translation>Unidad del centro</translation>
    </message>
    <message>
      <source>Unit of the file</source>
      <translation>Unidad del archivo</translation>
    </message>
    <message>
      <source>Unit of the intensity</source>
      <translation>Unidad de la intensidad</translation>
    </message>
    <message>
      <source>Unit of the least force</source>
      <translation>Unidad de la fuerza mínima</translation>
    </message>
    <message>
      <source>Unseen, {name}: from the centre of the band {ce} N ({ce_pct} %) on the whole (constant error), {ve} N ({ve_pct} %) of scatter (variable error), {ae} N ({ae_pct} %) without sign (absolute error); {n} reps.</source>
      <translation>Sin ver, {name}: del centro de la banda {ce} N ({ce_pct} %) en conjunto (error constante), {ve} N ({ve_pct} %) de dispersión (error variable), {ae} N ({ae_pct} %) sin signo (error absoluto); {n} repeticiones.</translation>
    </message>
    <message>
      <source>Unseen, {name}: one rep, {error} N ({pct} %) from the centre of the band.</source>
      <translation>Sin ver, {name}: una repetición, {error} N ({pct} %) del centro de la banda.</translation>
    </message>
    <message>
      <source>Unsteadiness: CV without slow drift, median of the reps</source>
      <translation>Falta de firmeza: CV sin deriva lenta, mediana de las repeticiones</translation>
    </message>
    <message>
      <source>Update the firmware.</source>
      <translation>Actualizar el firmware.</translation>
    </message>
    <message>
      <source>Update the program.</source>
      <translation>Actualizar el programa.</translation>
    </message>
    <message>
      <source>Update this program.</source>
      <translation>Actualizar este programa.</translation>
    </message>
    <message>
      <source>Use A for this rig…</source>
      <translation>Usar A en este equipo…</translation>
    </message>
    <message>
      <source>Use CSV or Parquet.</source>
      <translation>Usar CSV o Parquet.</translation>
    </message>
    <message>
      <source>Use a board that stamps its samples with its own clock.</source>
      <translation>Usar una placa que feche sus muestras con su propio reloj.</translation>
    </message>
    <message>
      <source>Use a code that tells nobody who the athlete is.</source>
      <translation>Usar un código que no diga a nadie quién es el atleta.</translation>
    </message>
    <message>
      <source>Use a short shielded cable, no hub, and the baud rate that the board is set to; keep the cable away from motors and chargers.</source>
      <translation>Usar un cable corto y apantallado, sin concentrador, y la velocidad en baudios de la placa; alejar el cable de motores y cargadores.</translation>
    </message>
    <message>
      <source>Use as 100 %</source>
      <translation>Usar como 100 %</translation>
    </message>
    <message>
      <source>Use loads from the empty rig to near the largest force intended.</source>
      <translation>Usar cargas desde el equipo vacío hasta cerca de la fuerza mayor prevista.</translation>
    </message>
    <message>
      <source>Use the other board that is on the port</source>
      <translation>Usar la otra placa que está en el puerto</translation>
    </message>
    <message>
      <source>Use the server's own tools for its backups.</source>
      <translation>Usar las herramientas del servidor para sus copias de seguridad.</translation>
    </message>
    <message>
      <source>Use this</source>
      <translation>Usar este</translation>
    </message>
    <message>
      <source>Use this board</source>
      <translation>Usar esta placa</translation>
    </message>
    <message>
      <source>Usually {key}</source>
      <translation>Normalmente {key}</translation>
    </message>
    <message>
      <source>VE</source>
      <translation>EV</translation>
    </message>
    <message>
      <source>VE, variable error: the SD of the distance from the centre.</source>
      <translation>EV, error variable: la DE de la distancia al centro.</translation>
    </message>
    <message>
      <source>Variance of the force without its line, over all frequencies.</source>
      <translation>Varianza de la fuerza sin su recta, en todas las frecuencias.</translation>
    </message>
    <message>
      <source>Verdicts</source>
      <translation>Dictámenes</translation>
    </message>
    <message>
      <source>Visit</source>
      <translation>Visita</translation>
    </message>
    <message>
      <source>Visit ended</source>
      <translation>Visita terminada</translation>
    </message>
    <message>
      <source>Visit of {who}, {day}</source>
      <translation>Visita de {who}, {day}</translation>
    </message>
    <message>
      <source>Visit, progress: save a report</source>
      <translation>Visita, progreso: guardar un informe</translation>
    </message>
    <message>
      <source>Visit: what was done today, and next time</source>
      <translation>Visita: lo hecho hoy, y la próxima vez</translation>
    </message>
    <message>
      <source>Void</source>
      <translation>Nula</translation>
    </message>
    <message>
      <source>Void the test instead.</source>
      <translation>Anular la prueba en su lugar.</translation>
    </message>
    <message>
      <source>Void, reason</source>
      <translation>Nula, motivo</translation>
    </message>
    <message>
      <source>Volume in %</source>
      <translation>Volumen en %</translation>
    </message>
    <message>
      <source>Wait a moment</source>
      <translation>Un momento</translation>
    </message>
    <message>
      <source>Wait until it is still, then take the point.</source>
      <translation>Esperar a que esté quieto y tomar el punto.</translation>
    </message>
    <message>
      <source>Wait until one second of signal has come.</source>
      <translation>Esperar a que llegue un segundo de señal.</translation>
    </message>
    <message>
      <source>Waiting for the board to answer.</source>
      <translation>Esperando a que la placa responda.</translation>
    </message>
    <message>
      <source>Waiting for the board.</source>
      <translation>Esperando la placa.</translation>
    </message>
    <message>
      <source>Warm-up: {name}</source>
      <translation>Calentamiento: {name}</translation>
    </message>
    <message>
      <source>Weaker</source>
      <translation>Más débil</translation>
    </message>
    <message>
      <source>Weeks and pain</source>
      <translation>Semanas y dolor</translation>
    </message>
    <message>
      <source>Weeks with a set without a reference have no dose in % and no point.</source>
      <translation>Las semanas con una serie sin referencia no tienen dosis en % ni punto.</translation>
    </message>
    <message>
      <source>What</source>
      <translation>Qué</translation>
    </message>
    <message>
      <source>What came after</source>
      <translation>Lo que vino después</translation>
    </message>
    <message>
      <source>What came of the backup</source>
      <translation>Resultado de la copia</translation>
    </message>
    <message>
      <source>What comes from {port} cannot be understood at {baud} baud.</source>
      <translation>Lo que llega de {port} no se entiende a {baud} baudios.</translation>
    </message>
    <message>
      <source>What comes is old, or the board's clock stands still: no force is shown. Pull the cable and plug it in again.</source>
      <translation>Lo que llega es antiguo, o el reloj de la placa está parado: no se muestra la fuerza. Desenchufar el cable y enchufarlo de nuevo.</translation>
    </message>
    <message>
      <source>What comes next</source>
      <translation>Lo que sigue</translation>
    </message>
    <message>
      <source>What has no room in the table</source>
      <translation>Lo que no cabe en la tabla</translation>
    </message>
    <message>
      <source>What is asked for, and the signal</source>
      <translation>Lo que se pide, y la señal</translation>
    </message>
    <message>
      <source>What is not known</source>
      <translation>Lo que no se sabe</translation>
    </message>
    <message>
      <source>What is the 100 %</source>
      <translation>Qué es el 100 %</translation>
    </message>
    <message>
      <source>What is to be known now</source>
      <translation>Lo que conviene saber ahora</translation>
    </message>
    <message>
      <source>What is to be known of a key</source>
      <translation>Lo que conviene saber de una tecla</translation>
    </message>
    <message>
      <source>What is true of a group need not be true of one athlete; the limits of agreement show how far athletes differ.</source>
      <translation>Lo que vale para un grupo no tiene por qué valer para un atleta; los límites de concordancia muestran cuánto difieren los atletas.</translation>
    </message>
    <message>
      <source>What is wrong in the fields</source>
      <translation>Qué está mal en los campos</translation>
    </message>
    <message>
      <source>What noise adds to what is shown in holds, rms</source>
      <translation>Lo que el ruido añade a lo mostrado al mantener, rms</translation>
    </message>
    <message>
      <source>What one test is off by</source>
      <translation>Cuánto puede errar un test</translation>
    </message>
    <message>
      <source>What the athlete sees</source>
      <translation>Lo que ve el atleta</translation>
    </message>
    <message>
      <source>What the measure means</source>
      <translation>Qué significa la medida</translation>
    </message>
    <message>
      <source>What the tolerance is of</source>
      <translation>De qué es la tolerancia</translation>
    </message>
    <message>
      <source>What the visit is at</source>
      <translation>En qué está la visita</translation>
    </message>
    <message>
      <source>What this may mean; the numbers do not say which:</source>
      <translation>Qué puede significar; los números no dicen cuál:</translation>
    </message>
    <message>
      <source>What this stage asks for</source>
      <translation>Lo que pide esta etapa</translation>
    </message>
    <message>
      <source>What to do now</source>
      <translation>Qué hacer ahora</translation>
    </message>
    <message>
      <source>What was agreed, when, and with whom.</source>
      <translation>Qué se acordó, cuándo y con quién.</translation>
    </message>
    <message>
      <source>What was before</source>
      <translation>Lo que hubo antes</translation>
    </message>
    <message>
      <source>What was changed</source>
      <translation>Qué se cambió</translation>
    </message>
    <message>
      <source>What was changed, and why</source>
      <translation>Qué se cambió y por qué</translation>
    </message>
    <message>
      <source>What was done on days without a visit; such a day is no zero.</source>
      <translation>Lo hecho en días sin visita; un día así no es un cero.</translation>
    </message>
    <message>
      <source>What was done, not what it did: no noise of it is told. A week without a visit is no zero, it has no point.</source>
      <translation>Lo que se hizo, no lo que produjo: no se da ruido. Una semana sin visita no es un cero, no tiene punto.</translation>
    </message>
    <message>
      <source>What was noted</source>
      <translation>Lo que se anotó</translation>
    </message>
    <message>
      <source>When</source>
      <translation>Cuándo</translation>
    </message>
    <message>
      <source>Where it comes from</source>
      <translation>De dónde viene</translation>
    </message>
    <message>
      <source>Where somebody asks to have their data deleted: recordings, rows, reports and the backups that are here, for good. First it is shown what would go.</source>
      <translation>Cuando alguien pide que se borren sus datos: grabaciones, filas, informes y las copias que están aquí, para siempre. Primero se muestra qué se iría.</translation>
    </message>
    <message>
      <source>Where the floor comes from</source>
      <translation>De dónde viene el suelo</translation>
    </message>
    <message>
      <source>Where the force began to rise: for rates only.</source>
      <translation>Donde empezó a subir la fuerza: solo para velocidades.</translation>
    </message>
    <message>
      <source>Where to</source>
      <translation>Adónde</translation>
    </message>
    <message>
      <source>Which number is the 100 %</source>
      <translation>Qué número es el 100 %</translation>
    </message>
    <message>
      <source>While {code} was here: {message}</source>
      <translation>Mientras {code} estaba aquí: {message}</translation>
    </message>
    <message>
      <source>Who</source>
      <translation>Quién</translation>
    </message>
    <message>
      <source>Who changes it: initials are enough.</source>
      <translation>Quién lo cambia: bastan las iniciales.</translation>
    </message>
    <message>
      <source>Who chooses; kept with the choice</source>
      <translation>Quién elige; se guarda con la elección</translation>
    </message>
    <message>
      <source>Who did what</source>
      <translation>Quién hizo qué</translation>
    </message>
    <message>
      <source>Whole rep</source>
      <translation>Repetición entera</translation>
    </message>
    <message>
      <source>Whose 100 % it is</source>
      <translation>De qué tarea es el 100 %</translation>
    </message>
    <message>
      <source>Why the chosen effort does not count, such as: strap slipped.</source>
      <translation>Por qué no cuenta el esfuerzo elegido; p. ej., la correa se movió.</translation>
    </message>
    <message>
      <source>Why the test does not count; it stays on record.</source>
      <translation>Por qué no cuenta la prueba; sigue en el registro.</translation>
    </message>
    <message>
      <source>Why there is no sound</source>
      <translation>Por qué no hay sonido</translation>
    </message>
    <message>
      <source>Why?</source>
      <translation>¿Por qué?</translation>
    </message>
    <message>
      <source>Wider</source>
      <translation>Más lejos</translation>
    </message>
    <message>
      <source>With</source>
      <translation>Con</translation>
    </message>
    <message>
      <source>With a blank between; a stack as 10+5: 5 10 10+5 20</source>
      <translation>Con un espacio entre ellas; una pila como 10+5: 5 10 10+5 20</translation>
    </message>
    <message>
      <source>Without a logbook no test is known.</source>
      <translation>Sin registro no se conoce ninguna prueba.</translation>
    </message>
    <message>
      <source>Words</source>
      <translation>Palabras</translation>
    </message>
    <message>
      <source>Worked out from the cell's rating, never calibrated.</source>
      <translation>Calculado de la carga nominal de la célula, nunca calibrado.</translation>
    </message>
    <message>
      <source>Worst time between frames: {worst_frame_s:.1f} ms by the board's clock, {arrival_s:.1f} ms as they were read.</source>
      <translation>Peor tiempo entre tramas: {worst_frame_s:.1f} ms por el reloj de la placa, {arrival_s:.1f} ms al leerlas.</translation>
    </message>
    <message>
      <source>Write 10 or, for a stack, 10+5.</source>
      <translation>Escribir 10 o, para una pila, 10+5.</translation>
    </message>
    <message>
      <source>Write a note (F4), Enter keeps it</source>
      <translation>Escribir una nota (F4), Intro la guarda</translation>
    </message>
    <message>
      <source>Write a note; Enter keeps it</source>
      <translation>Escribir una nota; Intro la guarda</translation>
    </message>
    <message>
      <source>Write year, month and day: 2026-03-09.</source>
      <translation>Escribir año, mes y día: 2026-03-09.</translation>
    </message>
    <message>
      <source>X is better</source>
      <translation>X es mejor</translation>
    </message>
    <message>
      <source>Y is better</source>
      <translation>Y es mejor</translation>
    </message>
    <message>
      <source>Year, month, day, such as 2026-03-31; or none</source>
      <translation>Año, mes, día, como 2026-03-31; o nada</translation>
    </message>
    <message>
      <source>Year-month-day.</source>
      <translation>Año-mes-día.</translation>
    </message>
    <message>
      <source>Yes, use it</source>
      <translation>Sí, usarlo</translation>
    </message>
    <message>
      <source>Zero</source>
      <translation>Cero</translation>
    </message>
    <message>
      <source>Zero is being taken already.</source>
      <translation>Ya se está tomando el cero.</translation>
    </message>
    <message>
      <source>Zero phase</source>
      <translation>Fase cero</translation>
    </message>
    <message>
      <source>Zero taken: {kind}.</source>
      <translation>Cero tomado: {kind}.</translation>
    </message>
    <message>
      <source>Zero: empty rig</source>
      <translation>Cero: equipo vacío</translation>
    </message>
    <message>
      <source>Zero: limb resting</source>
      <translation>Cero: extremidad en reposo</translation>
    </message>
    <message>
      <source>Zero: none taken. What the limb weighs is then part of every force.</source>
      <translation>Cero: ninguno tomado. El peso de la extremidad entra entonces en cada fuerza.</translation>
    </message>
    <message>
      <source>Zero: not taken yet</source>
      <translation>Cero: aún no tomado</translation>
    </message>
    <message>
      <source>Zero: {kind}{at} ({offsets} N)</source>
      <translation>Cero: {kind}{at} ({offsets} N)</translation>
    </message>
    <message>
      <source>Zero: {kind}{time}.</source>
      <translation>Cero: {kind}{time}.</translation>
    </message>
    <message>
      <source>Zoom in</source>
      <translation>Acercar</translation>
    </message>
    <message>
      <source>Zoom out</source>
      <translation>Alejar</translation>
    </message>
    <message>
      <source>a board that does not say who it is</source>
      <translation>una placa que no dice quién es</translation>
    </message>
    <message>
      <source>a board without a serial number</source>
      <translation>una placa sin número de serie</translation>
    </message>
    <message>
      <source>a board without a serial number ({counts})</source>
      <translation>una placa sin número de serie ({counts})</translation>
    </message>
    <message>
      <source>a centre needs one.</source>
      <translation>un centro necesita una.</translation>
    </message>
    <message>
      <source>a centre ±</source>
      <translation>un centro ±</translation>
    </message>
    <message>
      <source>a date is missing.</source>
      <translation>falta una fecha.</translation>
    </message>
    <message>
      <source>a fall of more than the noise</source>
      <translation>una bajada mayor que el ruido</translation>
    </message>
    <message>
      <source>a logbook in a file is named by its path alone.</source>
      <translation>un registro en un archivo se nombra solo con su ruta.</translation>
    </message>
    <message>
      <source>a logbook needs a file.</source>
      <translation>un registro necesita un archivo.</translation>
    </message>
    <message>
      <source>a lowering has a floor and no upper edge.</source>
      <translation>un descenso tiene suelo y no borde superior.</translation>
    </message>
    <message>
      <source>a name in {logbook} was not searched for: it is damaged</source>
      <translation>un nombre de {logbook} no se buscó: está dañado</translation>
    </message>
    <message>
      <source>a name in {logbook} was not searched for: {error}</source>
      <translation>un nombre de {logbook} no se buscó: {error}</translation>
    </message>
    <message>
      <source>a quotation mark is opened and not closed.</source>
      <translation>unas comillas se abren y no se cierran.</translation>
    </message>
    <message>
      <source>a range</source>
      <translation>un rango</translation>
    </message>
    <message>
      <source>a scripted force</source>
      <translation>una fuerza según guion</translation>
    </message>
    <message>
      <source>a simulated rig</source>
      <translation>un equipo simulado</translation>
    </message>
    <message>
      <source>about {number:.0f} times a day</source>
      <translation>unas {number:.0f} veces al día</translation>
    </message>
    <message>
      <source>about {number:.0f} times a month</source>
      <translation>unas {number:.0f} veces al mes</translation>
    </message>
    <message>
      <source>about {number:.0f} times an hour</source>
      <translation>unas {number:.0f} veces por hora</translation>
    </message>
    <message>
      <source>about {per_min:.0f} times a minute</source>
      <translation>unas {per_min:.0f} veces por minuto</translation>
    </message>
    <message>
      <source>above</source>
      <translation>por encima</translation>
    </message>
    <message>
      <source>above floor</source>
      <translation>sobre el suelo</translation>
    </message>
    <message>
      <source>adduction</source>
      <translation>aducción</translation>
    </message>
    <message>
      <source>after</source>
      <translation>después</translation>
    </message>
    <message>
      <source>age of the shown value (ms)</source>
      <translation>edad del valor mostrado (ms)</translation>
    </message>
    <message>
      <source>agreed cut: {cut} of {most}</source>
      <translation>límite acordado: {cut} de {most}</translation>
    </message>
    <message>
      <source>all</source>
      <translation>todas</translation>
    </message>
    <message>
      <source>all joints together</source>
      <translation>todas las articulaciones juntas</translation>
    </message>
    <message>
      <source>all there is</source>
      <translation>todo lo que hay</translation>
    </message>
    <message>
      <source>an athlete is being erased from the logbook just now.</source>
      <translation>se está borrando un atleta del registro en este momento.</translation>
    </message>
    <message>
      <source>an invented athlete</source>
      <translation>un atleta inventado</translation>
    </message>
    <message>
      <source>an uncertainty must be 0 or more.</source>
      <translation>una incertidumbre debe ser 0 o más.</translation>
    </message>
    <message>
      <source>angle</source>
      <translation>ángulo</translation>
    </message>
    <message>
      <source>ankle</source>
      <translation>tobillo</translation>
    </message>
    <message>
      <source>another board</source>
      <translation>otra placa</translation>
    </message>
    <message>
      <source>another board: nothing is read</source>
      <translation>otra placa: no se lee nada</translation>
    </message>
    <message>
      <source>another program keeps the logbook busy.</source>
      <translation>otro programa mantiene ocupado el registro.</translation>
    </message>
    <message>
      <source>are in a logbook and not in recordings.</source>
      <translation>están en un registro y no en las grabaciones.</translation>
    </message>
    <message>
      <source>are missing.</source>
      <translation>faltan.</translation>
    </message>
    <message>
      <source>are more than {loads_most}.</source>
      <translation>son más de {loads_most}.</translation>
    </message>
    <message>
      <source>as before the injury ({day})</source>
      <translation>como antes de la lesión ({day})</translation>
    </message>
    <message>
      <source>as stated</source>
      <translation>según se indicó</translation>
    </message>
    <message>
      <source>as the other side of that visit</source>
      <translation>como el otro lado de esa visita</translation>
    </message>
    <message>
      <source>asked for</source>
      <translation>pedido</translation>
    </message>
    <message>
      <source>asked hold</source>
      <translation>tiempo pedido</translation>
    </message>
    <message>
      <source>asked, centre of the band</source>
      <translation>pedido, centro de la banda</translation>
    </message>
    <message>
      <source>at least</source>
      <translation>al menos</translation>
    </message>
    <message>
      <source>at least 1 sample missing in between</source>
      <translation>falta al menos 1 muestra en medio</translation>
    </message>
    <message>
      <source>at least {count} samples missing in between</source>
      <translation>faltan al menos {count} muestras en medio</translation>
    </message>
    <message>
      <source>at least {lost}</source>
      <translation>al menos {lost}</translation>
    </message>
    <message>
      <source>at least {low:.0f} {unit}</source>
      <translation>al menos {low:.0f} {unit}</translation>
    </message>
    <message>
      <source>at least {lower_n} N</source>
      <translation>al menos {lower_n} N</translation>
    </message>
    <message>
      <source>at least {lower} {unit}</source>
      <translation>al menos {lower} {unit}</translation>
    </message>
    <message>
      <source>at least {low} N·m</source>
      <translation>al menos {low} N·m</translation>
    </message>
    <message>
      <source>at least {low} {unit}</source>
      <translation>al menos {low} {unit}</translation>
    </message>
    <message>
      <source>at least, %</source>
      <translation>al menos, %</translation>
    </message>
    <message>
      <source>at most</source>
      <translation>como máximo</translation>
    </message>
    <message>
      <source>at rest</source>
      <translation>en reposo</translation>
    </message>
    <message>
      <source>at the end of its range</source>
      <translation>en el extremo de su rango</translation>
    </message>
    <message>
      <source>at the {joint}</source>
      <translation>en {joint}</translation>
    </message>
    <message>
      <source>athlete</source>
      <translation>atleta</translation>
    </message>
    <message>
      <source>athlete's own</source>
      <translation>del propio atleta</translation>
    </message>
    <message>
      <source>athletes with both forces: {people}; at least {least_people} are needed.</source>
      <translation>atletas con ambas fuerzas: {people}; hacen falta al menos {least_people}.</translation>
    </message>
    <message>
      <source>average of several rows</source>
      <translation>media de varias filas</translation>
    </message>
    <message>
      <source>back</source>
      <translation>volver</translation>
    </message>
    <message>
      <source>backed up</source>
      <translation>copia de seguridad</translation>
    </message>
    <message>
      <source>backups and copies made by other programs or carried elsewhere</source>
      <translation>copias hechas por otros programas o llevadas a otro sitio</translation>
    </message>
    <message>
      <source>backups that are newer than the one that was put back here on {day}, and of which this logbook does not know</source>
      <translation>copias de seguridad más recientes que la que se restauró aquí el {day} y que este registro no conoce</translation>
    </message>
    <message>
      <source>balance</source>
      <translation>equilibrio</translation>
    </message>
    <message>
      <source>balance ± {points} points{needed}</source>
      <translation>equilibrio ± {points} puntos{needed}</translation>
    </message>
    <message>
      <source>band</source>
      <translation>banda</translation>
    </message>
    <message>
      <source>band changed {number} ×</source>
      <translation>banda cambiada {number} ×</translation>
    </message>
    <message>
      <source>band lower</source>
      <translation>banda, inferior</translation>
    </message>
    <message>
      <source>band upper</source>
      <translation>banda, superior</translation>
    </message>
    <message>
      <source>band ±</source>
      <translation>banda ±</translation>
    </message>
    <message>
      <source>banked</source>
      <translation>acumulado</translation>
    </message>
    <message>
      <source>baseline mean + the larger of 5 N and 5 SD, traced back to the mean</source>
      <translation>media de base + lo mayor de 5 N y 5 DE, llevado atrás hasta la media</translation>
    </message>
    <message>
      <source>before</source>
      <translation>antes</translation>
    </message>
    <message>
      <source>before the injury</source>
      <translation>antes de la lesión</translation>
    </message>
    <message>
      <source>before the visit</source>
      <translation>antes de la visita</translation>
    </message>
    <message>
      <source>below</source>
      <translation>por debajo</translation>
    </message>
    <message>
      <source>best</source>
      <translation>mejor</translation>
    </message>
    <message>
      <source>best 0.5 s mean</source>
      <translation>media de 0,5 s</translation>
    </message>
    <message>
      <source>best 0.5 s, N</source>
      <translation>mejor 0,5 s, N</translation>
    </message>
    <message>
      <source>best 1 s</source>
      <translation>mejor 1 s</translation>
    </message>
    <message>
      <source>best 1 s mean</source>
      <translation>media de 1 s</translation>
    </message>
    <message>
      <source>best 1 s, N</source>
      <translation>mejor 1 s, N</translation>
    </message>
    <message>
      <source>best half s</source>
      <translation>mejor medio s</translation>
    </message>
    <message>
      <source>best of another task</source>
      <translation>mejor de otra tarea</translation>
    </message>
    <message>
      <source>between sets</source>
      <translation>entre series</translation>
    </message>
    <message>
      <source>bias {bias:.2f} {unit}, 95 % interval {low:.2f} to {high:.2f}</source>
      <translation>sesgo {bias:.2f} {unit}, intervalo del 95 % de {low:.2f} a {high:.2f}</translation>
    </message>
    <message>
      <source>board not named</source>
      <translation>placa sin nombre</translation>
    </message>
    <message>
      <source>board {number}</source>
      <translation>placa {number}</translation>
    </message>
    <message>
      <source>board {number} ({counts})</source>
      <translation>placa {number} ({counts})</translation>
    </message>
    <message>
      <source>bootstrap {lower:.2f} to {upper:.2f}</source>
      <translation>bootstrap de {lower:.2f} a {upper:.2f}</translation>
    </message>
    <message>
      <source>both</source>
      <translation>ambos</translation>
    </message>
    <message>
      <source>both alike</source>
      <translation>ambas iguales</translation>
    </message>
    <message>
      <source>both sides</source>
      <translation>ambos lados</translation>
    </message>
    <message>
      <source>both sides the same</source>
      <translation>ambos lados igual</translation>
    </message>
    <message>
      <source>both sides together</source>
      <translation>ambos lados a la vez</translation>
    </message>
    <message>
      <source>both together</source>
      <translation>ambos a la vez</translation>
    </message>
    <message>
      <source>break after</source>
      <translation>cedió tras</translation>
    </message>
    <message>
      <source>broke at {s} s</source>
      <translation>cedió a los {s} s</translation>
    </message>
    <message>
      <source>broken off and begun anew: {n}</source>
      <translation>interrumpidas y empezadas de nuevo: {n}</translation>
    </message>
    <message>
      <source>buoyancy of air</source>
      <translation>empuje del aire</translation>
    </message>
    <message>
      <source>butterworth</source>
      <translation>Butterworth</translation>
    </message>
    <message>
      <source>by</source>
      <translation>por</translation>
    </message>
    <message>
      <source>by the 100 % of another athlete</source>
      <translation>según el 100 % de otro atleta</translation>
    </message>
    <message>
      <source>by the 100 % of another side: {side}</source>
      <translation>según el 100 % de otro lado: {side}</translation>
    </message>
    <message>
      <source>by the 100 % of another task</source>
      <translation>según el 100 % de otra tarea</translation>
    </message>
    <message>
      <source>by the 100 % of “{task}”</source>
      <translation>según el 100 % de «{task}»</translation>
    </message>
    <message>
      <source>by the 100 % of “{task}”, {side}</source>
      <translation>según el 100 % de «{task}», {side}</translation>
    </message>
    <message>
      <source>byte 0</source>
      <translation>byte 0</translation>
    </message>
    <message>
      <source>byte {start}</source>
      <translation>byte {start}</translation>
    </message>
    <message>
      <source>b{power} = {value:.12g} ± {sd:.3g} counts</source>
      <translation>b{power} = {value:.12g} ± {sd:.3g} cuentas</translation>
    </message>
    <message>
      <source>b{power} = {value:.12g} ± {sd:.3g} counts/N</source>
      <translation>b{power} = {value:.12g} ± {sd:.3g} cuentas/N</translation>
    </message>
    <message>
      <source>b{power} = {value:.12g} ± {sd:.3g} counts/N²</source>
      <translation>b{power} = {value:.12g} ± {sd:.3g} cuentas/N²</translation>
    </message>
    <message>
      <source>calibration</source>
      <translation>calibración</translation>
    </message>
    <message>
      <source>calibration curve</source>
      <translation>curva de calibración</translation>
    </message>
    <message>
      <source>cannot be made: {strerror}.</source>
      <translation>no se puede crear: {strerror}.</translation>
    </message>
    <message>
      <source>cannot be read ({reason}).</source>
      <translation>no se puede leer ({reason}).</translation>
    </message>
    <message>
      <source>cannot be read: {strerror}.</source>
      <translation>no se puede leer: {strerror}.</translation>
    </message>
    <message>
      <source>cannot be written as JSON: {error}.</source>
      <translation>no se puede escribir como JSON: {error}.</translation>
    </message>
    <message>
      <source>cannot tell yet</source>
      <translation>aún no se sabe</translation>
    </message>
    <message>
      <source>ceiling</source>
      <translation>techo</translation>
    </message>
    <message>
      <source>cell</source>
      <translation>célula</translation>
    </message>
    <message>
      <source>cell {number}</source>
      <translation>célula {number}</translation>
    </message>
    <message>
      <source>change</source>
      <translation>cambio</translation>
    </message>
    <message>
      <source>changed while it was read.</source>
      <translation>cambió mientras se leía.</translation>
    </message>
    <message>
      <source>closed</source>
      <translation>cerrada</translation>
    </message>
    <message>
      <source>column {place}</source>
      <translation>columna {place}</translation>
    </message>
    <message>
      <source>column “{name}”</source>
      <translation>columna «{name}»</translation>
    </message>
    <message>
      <source>combined error</source>
      <translation>error combinado</translation>
    </message>
    <message>
      <source>comma</source>
      <translation>coma</translation>
    </message>
    <message>
      <source>common practice, no published source</source>
      <translation>práctica habitual, sin fuente publicada</translation>
    </message>
    <message>
      <source>complete</source>
      <translation>completa</translation>
    </message>
    <message>
      <source>complete reps</source>
      <translation>repeticiones completas</translation>
    </message>
    <message>
      <source>contradict each other.</source>
      <translation>se contradicen.</translation>
    </message>
    <message>
      <source>converter {numbers} gives</source>
      <translation>el convertidor {numbers} da</translation>
    </message>
    <message>
      <source>counts</source>
      <translation>cuentas</translation>
    </message>
    <message>
      <source>creep</source>
      <translation>fluencia</translation>
    </message>
    <message>
      <source>creep is {creep_pct:.2g} %, the class allows {c:g} %</source>
      <translation>la fluencia es de {creep_pct:.2g} %; la clase permite {c:g} %</translation>
    </message>
    <message>
      <source>creep, minute 20 to 30</source>
      <translation>fluencia, minutos 20 a 30</translation>
    </message>
    <message>
      <source>creep: not known, no load was read at two known times</source>
      <translation>fluencia: no se sabe, ninguna carga se leyó en dos momentos conocidos</translation>
    </message>
    <message>
      <source>creep: {pct:.4f} % from {from_s:g} s to {to_s:g} s at {force_n:.6g} N</source>
      <translation>fluencia: {pct:.4f} % de {from_s:g} s a {to_s:g} s a {force_n:.6g} N</translation>
    </message>
    <message>
      <source>critically damped</source>
      <translation>amortiguamiento crítico</translation>
    </message>
    <message>
      <source>critically damped, 1 pass, {hz:g} Hz</source>
      <translation>amortiguamiento crítico, 1 pasada, {hz:g} Hz</translation>
    </message>
    <message>
      <source>critically damped, {n} passes, {hz:g} Hz</source>
      <translation>amortiguamiento crítico, {n} pasadas, {hz:g} Hz</translation>
    </message>
    <message>
      <source>curve</source>
      <translation>curva</translation>
    </message>
    <message>
      <source>curve of degree 2</source>
      <translation>curva de grado 2</translation>
    </message>
    <message>
      <source>curve turns back</source>
      <translation>la curva se vuelve</translation>
    </message>
    <message>
      <source>cut short</source>
      <translation>cortada</translation>
    </message>
    <message>
      <source>dated {age_days} ahead</source>
      <translation>con fecha adelantada {age_days}</translation>
    </message>
    <message>
      <source>days</source>
      <translation>días</translation>
    </message>
    <message>
      <source>definition not stated</source>
      <translation>definición no indicada</translation>
    </message>
    <message>
      <source>difference, N</source>
      <translation>diferencia, N</translation>
    </message>
    <message>
      <source>disc</source>
      <translation>disco</translation>
    </message>
    <message>
      <source>disk quota exceeded</source>
      <translation>cuota de disco superada</translation>
    </message>
    <message>
      <source>done</source>
      <translation>hecha</translation>
    </message>
    <message>
      <source>done in another position than the newest</source>
      <translation>en otra posición que el más reciente</translation>
    </message>
    <message>
      <source>dose</source>
      <translation>dosis</translation>
    </message>
    <message>
      <source>dose, %·s</source>
      <translation>dosis, %·s</translation>
    </message>
    <message>
      <source>down</source>
      <translation>bajando</translation>
    </message>
    <message>
      <source>drift</source>
      <translation>deriva</translation>
    </message>
    <message>
      <source>during</source>
      <translation>durante</translation>
    </message>
    <message>
      <source>each needs a key of its own.</source>
      <translation>cada una necesita una clave propia.</translation>
    </message>
    <message>
      <source>each rep starts by key</source>
      <translation>cada repetición empieza por tecla</translation>
    </message>
    <message>
      <source>each side</source>
      <translation>cada lado</translation>
    </message>
    <message>
      <source>eccentric strength is lacking</source>
      <translation>falta fuerza excéntrica</translation>
    </message>
    <message>
      <source>eccentric, N</source>
      <translation>excéntrica, N</translation>
    </message>
    <message>
      <source>effort</source>
      <translation>esfuerzo</translation>
    </message>
    <message>
      <source>elbow</source>
      <translation>codo</translation>
    </message>
    <message>
      <source>empty</source>
      <translation>vacío</translation>
    </message>
    <message>
      <source>empty rig</source>
      <translation>en vacío</translation>
    </message>
    <message>
      <source>empty rig missing</source>
      <translation>falta el equipo vacío</translation>
    </message>
    <message>
      <source>end</source>
      <translation>final</translation>
    </message>
    <message>
      <source>end of recording</source>
      <translation>fin de la grabación</translation>
    </message>
    <message>
      <source>ended</source>
      <translation>terminado</translation>
    </message>
    <message>
      <source>enough</source>
      <translation>suficiente</translation>
    </message>
    <message>
      <source>enough trials</source>
      <translation>intentos suficientes</translation>
    </message>
    <message>
      <source>entry</source>
      <translation>entrada</translation>
    </message>
    <message>
      <source>erased</source>
      <translation>borrado</translation>
    </message>
    <message>
      <source>every second rep unseen</source>
      <translation>cada segunda repetición sin ver</translation>
    </message>
    <message>
      <source>excursions up to {grace_s:g} s are no lapses</source>
      <translation>las salidas de hasta {grace_s:g} s no cuentan</translation>
    </message>
    <message>
      <source>exponential</source>
      <translation>exponencial</translation>
    </message>
    <message>
      <source>exponential, {ms:g} ms</source>
      <translation>exponencial, {ms:g} ms</translation>
    </message>
    <message>
      <source>exported</source>
      <translation>exportado</translation>
    </message>
    <message>
      <source>exports, printed pages and pictures, and reports that were moved or renamed</source>
      <translation>exportaciones, páginas e imágenes impresas, e informes movidos o con otro nombre</translation>
    </message>
    <message>
      <source>extension</source>
      <translation>extensión</translation>
    </message>
    <message>
      <source>extension against the hamstrings</source>
      <translation>extensión contra los isquiotibiales</translation>
    </message>
    <message>
      <source>external rotation</source>
      <translation>rotación externa</translation>
    </message>
    <message>
      <source>extrapolation</source>
      <translation>extrapolación</translation>
    </message>
    <message>
      <source>fading</source>
      <translation>desvaneciendo</translation>
    </message>
    <message>
      <source>fading over the sessions</source>
      <translation>desvaneciendo entre sesiones</translation>
    </message>
    <message>
      <source>faint</source>
      <translation>débil</translation>
    </message>
    <message>
      <source>fall</source>
      <translation>caída</translation>
    </message>
    <message>
      <source>feedback</source>
      <translation>fuerza visible</translation>
    </message>
    <message>
      <source>few loads</source>
      <translation>pocas cargas</translation>
    </message>
    <message>
      <source>fewer than {runs_needed} rising runs at some load</source>
      <translation>menos de {runs_needed} vueltas crecientes con alguna carga</translation>
    </message>
    <message>
      <source>file exists</source>
      <translation>el archivo ya existe</translation>
    </message>
    <message>
      <source>file name too long</source>
      <translation>nombre de archivo demasiado largo</translation>
    </message>
    <message>
      <source>file too large</source>
      <translation>archivo demasiado grande</translation>
    </message>
    <message>
      <source>filter {ms} ms</source>
      <translation>filtro {ms} ms</translation>
    </message>
    <message>
      <source>first</source>
      <translation>primera</translation>
    </message>
    <message>
      <source>flexion</source>
      <translation>flexión</translation>
    </message>
    <message>
      <source>floor</source>
      <translation>suelo</translation>
    </message>
    <message>
      <source>floor {lower} {unit}</source>
      <translation>suelo {lower} {unit}</translation>
    </message>
    <message>
      <source>force</source>
      <translation>fuerza</translation>
    </message>
    <message>
      <source>force (N)</source>
      <translation>fuerza (N)</translation>
    </message>
    <message>
      <source>force seen</source>
      <translation>fuerza a la vista</translation>
    </message>
    <message>
      <source>force seen only outside the band</source>
      <translation>fuerza a la vista solo fuera de la banda</translation>
    </message>
    <message>
      <source>force shown: {feedback}</source>
      <translation>fuerza a la vista: {feedback}</translation>
    </message>
    <message>
      <source>force unseen</source>
      <translation>fuerza sin ver</translation>
    </message>
    <message>
      <source>forces in N, reference cell</source>
      <translation>fuerzas en N, célula de referencia</translation>
    </message>
    <message>
      <source>frequency (Hz)</source>
      <translation>frecuencia (Hz)</translation>
    </message>
    <message>
      <source>from a first test</source>
      <translation>de una primera prueba</translation>
    </message>
    <message>
      <source>from about byte {at} on there is no good frame, and the last {size} bytes were not read</source>
      <translation>desde cerca del byte {at} no hay ninguna trama buena, y los últimos {size} bytes no se leyeron</translation>
    </message>
    <message>
      <source>from week</source>
      <translation>desde la semana</translation>
    </message>
    <message>
      <source>from {force_n:.4g} N</source>
      <translation>desde {force_n:.4g} N</translation>
    </message>
    <message>
      <source>full</source>
      <translation>completa</translation>
    </message>
    <message>
      <source>full: the force is seen all the time
only outside the band: it is hidden while all is well
every second rep unseen: hidden in it, and shown after it
fading over the sessions: seen in fewer reps each time
unseen: hidden in each rep, and shown after it</source>
      <translation>completa: la fuerza se ve siempre
solo fuera de la banda: se oculta mientras todo va bien
cada segunda repetición sin ver: oculta en ella y mostrada después
desvaneciendo entre sesiones: cada vez se ve en menos repeticiones
sin ver: oculta en cada repetición y mostrada después</translation>
    </message>
    <message>
      <source>gain {gain}</source>
      <translation>ganancia {gain}</translation>
    </message>
    <message>
      <source>gap</source>
      <translation>hueco</translation>
    </message>
    <message>
      <source>gaps</source>
      <translation>huecos</translation>
    </message>
    <message>
      <source>good</source>
      <translation>bien</translation>
    </message>
    <message>
      <source>gravity</source>
      <translation>gravedad</translation>
    </message>
    <message>
      <source>gravity {m_s2:.6g} m/s² as given</source>
      <translation>gravedad {m_s2:.6g} m/s² según se indicó</translation>
    </message>
    <message>
      <source>hand or grip</source>
      <translation>mano o agarre</translation>
    </message>
    <message>
      <source>hand or wrist</source>
      <translation>mano o muñeca</translation>
    </message>
    <message>
      <source>hard</source>
      <translation>duro</translation>
    </message>
    <message>
      <source>has a number that is far too long.</source>
      <translation>tiene un número demasiado largo.</translation>
    </message>
    <message>
      <source>has more than {keys_max} entries.</source>
      <translation>tiene más de {keys_max} entradas.</translation>
    </message>
    <message>
      <source>has more than {most} entries.</source>
      <translation>tiene más de {most} entradas.</translation>
    </message>
    <message>
      <source>has more than {parts_most} weights in one stack.</source>
      <translation>tiene más de {parts_most} pesas en una pila.</translation>
    </message>
    <message>
      <source>has more than {points_max} points; this is no table of a calibration.</source>
      <translation>tiene más de {points_max} puntos; no es la tabla de una calibración.</translation>
    </message>
    <message>
      <source>has no centre: a minimum.</source>
      <translation>no tiene centro: un mínimo.</translation>
    </message>
    <message>
      <source>has no earlier result.</source>
      <translation>no tiene resultado anterior.</translation>
    </message>
    <message>
      <source>held, mean</source>
      <translation>mantenido, media</translation>
    </message>
    <message>
      <source>here now</source>
      <translation>aquí ahora</translation>
    </message>
    <message>
      <source>highest in or after sets</source>
      <translation>el mayor en las series o después</translation>
    </message>
    <message>
      <source>hip</source>
      <translation>cadera</translation>
    </message>
    <message>
      <source>hold</source>
      <translation>mantener</translation>
    </message>
    <message>
      <source>hold end</source>
      <translation>fin de mantener</translation>
    </message>
    <message>
      <source>hold something that is not a number.</source>
      <translation>contienen algo que no es un número.</translation>
    </message>
    <message>
      <source>holds complete</source>
      <translation>repeticiones completas</translation>
    </message>
    <message>
      <source>holds what is no letter.</source>
      <translation>contiene algo que no es una letra.</translation>
    </message>
    <message>
      <source>hysteresis</source>
      <translation>histéresis</translation>
    </message>
    <message>
      <source>impulse</source>
      <translation>impulso</translation>
    </message>
    <message>
      <source>impulse 0–100 ms</source>
      <translation>impulso 0–100 ms</translation>
    </message>
    <message>
      <source>impulse 0–200 ms</source>
      <translation>impulso 0–200 ms</translation>
    </message>
    <message>
      <source>in the band, s</source>
      <translation>en la banda, s</translation>
    </message>
    <message>
      <source>in the last sessions</source>
      <translation>en las últimas sesiones</translation>
    </message>
    <message>
      <source>in the manner of {standard}, class {name} (not a certificate)</source>
      <translation>a la manera de {standard}, clase {name} (no es un certificado)</translation>
    </message>
    <message>
      <source>injured side</source>
      <translation>lado lesionado</translation>
    </message>
    <message>
      <source>injured side, then the other</source>
      <translation>lado lesionado, luego el otro</translation>
    </message>
    <message>
      <source>injured: {side}</source>
      <translation>lesión: {side}</translation>
    </message>
    <message>
      <source>input/output error</source>
      <translation>error de entrada o salida</translation>
    </message>
    <message>
      <source>inside</source>
      <translation>dentro</translation>
    </message>
    <message>
      <source>inside, s</source>
      <translation>dentro, s</translation>
    </message>
    <message>
      <source>internal rotation</source>
      <translation>rotación interna</translation>
    </message>
    <message>
      <source>inverse approximate</source>
      <translation>inversa aproximada</translation>
    </message>
    <message>
      <source>is a directory</source>
      <translation>es una carpeta</translation>
    </message>
    <message>
      <source>is empty.</source>
      <translation>está vacío.</translation>
    </message>
    <message>
      <source>is far too long for a plan.</source>
      <translation>es demasiado largo para un plan.</translation>
    </message>
    <message>
      <source>is far too long.</source>
      <translation>es demasiado largo.</translation>
    </message>
    <message>
      <source>is given in % and in newtons; one is enough.</source>
      <translation>se da en % y en newtons; basta uno.</translation>
    </message>
    <message>
      <source>is longer than {key_max} characters.</source>
      <translation>tiene más de {key_max} caracteres.</translation>
    </message>
    <message>
      <source>is longer than {line_max} characters; this is not a table.</source>
      <translation>tiene más de {line_max} caracteres; esto no es una tabla.</translation>
    </message>
    <message>
      <source>is longer than {longest} characters.</source>
      <translation>tiene más de {longest} caracteres.</translation>
    </message>
    <message>
      <source>is longer than {most} characters.</source>
      <translation>tiene más de {most} caracteres.</translation>
    </message>
    <message>
      <source>is longer than {name_max} characters.</source>
      <translation>tiene más de {name_max} caracteres.</translation>
    </message>
    <message>
      <source>is longer than {note_max} characters.</source>
      <translation>tiene más de {note_max} caracteres.</translation>
    </message>
    <message>
      <source>is longer than {notes_max} characters.</source>
      <translation>tiene más de {notes_max} caracteres.</translation>
    </message>
    <message>
      <source>is longer than {reason_max} characters.</source>
      <translation>tiene más de {reason_max} caracteres.</translation>
    </message>
    <message>
      <source>is missing, and percentages need one.</source>
      <translation>falta, y los porcentajes necesitan una.</translation>
    </message>
    <message>
      <source>is missing.</source>
      <translation>falta.</translation>
    </message>
    <message>
      <source>is nested deeper than {depth_max}, or a number is too large.</source>
      <translation>está anidado más de {depth_max} niveles, o un número es demasiado grande.</translation>
    </message>
    <message>
      <source>is nested too deeply for a plan.</source>
      <translation>está anidado demasiado hondo para un plan.</translation>
    </message>
    <message>
      <source>is no JSON.</source>
      <translation>no es JSON.</translation>
    </message>
    <message>
      <source>is no cell of this rig.</source>
      <translation>no es una célula de este equipo.</translation>
    </message>
    <message>
      <source>is no plan: it must hold an object.</source>
      <translation>no es un plan: debe contener un objeto.</translation>
    </message>
    <message>
      <source>is no text.</source>
      <translation>no es texto.</translation>
    </message>
    <message>
      <source>is none of its stages.</source>
      <translation>no es ninguna de sus etapas.</translation>
    </message>
    <message>
      <source>is not a number.</source>
      <translation>no es un número.</translation>
    </message>
    <message>
      <source>is still to come.</source>
      <translation>aún está por venir.</translation>
    </message>
    <message>
      <source>is too long.</source>
      <translation>es demasiado largo.</translation>
    </message>
    <message>
      <source>is under it</source>
      <translation>está por debajo</translation>
    </message>
    <message>
      <source>is version {version}, and this program knows {plan_version}.</source>
      <translation>es la versión {version}, y este programa conoce la {plan_version}.</translation>
    </message>
    <message>
      <source>is wider than the range.</source>
      <translation>es más ancha que el rango.</translation>
    </message>
    <message>
      <source>is {altitude_m:g} m; it must be {altitude_least_m:g} to {altitude_most_m:g} m above sea level.</source>
      <translation>es {altitude_m:g} m; debe ser de {altitude_least_m:g} a {altitude_most_m:g} m sobre el mar.</translation>
    </message>
    <message>
      <source>is {arm:g} m; it must be {lever_arm_least_m:g} to {lever_arm_most_m:g} m.</source>
      <translation>es {arm:g} m; debe ser de {lever_arm_least_m:g} a {lever_arm_most_m:g} m.</translation>
    </message>
    <message>
      <source>is {beta_per_n:g}; it must be 0 or more.</source>
      <translation>es {beta_per_n:g}; debe ser 0 o más.</translation>
    </message>
    <message>
      <source>is {ceiling_pct:g} %; it must lie above the band, which reaches to {highest:.4g} %, and be at most {ceiling_most_pct:g} %.</source>
      <translation>es {ceiling_pct:g} %; debe estar por encima de la banda, que llega a {highest:.4g} %, y ser como máximo {ceiling_most_pct:g} %.</translation>
    </message>
    <message>
      <source>is {degree}; it must be 1 or 2.</source>
      <translation>es {degree}; debe ser 1 o 2.</translation>
    </message>
    <message>
      <source>is {factor:g} times the weight of the body.</source>
      <translation>es {factor:g} veces el peso del cuerpo.</translation>
    </message>
    <message>
      <source>is {force_n:g} N; it must be 0 to {force_most_n:g} N.</source>
      <translation>es {force_n:g} N; debe ser de 0 a {force_most_n:g} N.</translation>
    </message>
    <message>
      <source>is {force_n:g} N; it must be {reference_least_n:g} N to {force_max_n:g} N.</source>
      <translation>es {force_n:g} N; debe ser de {reference_least_n:g} N a {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>is {found:g} N, more than EDF+ can say.</source>
      <translation>es {found:g} N, más de lo que EDF+ puede decir.</translation>
    </message>
    <message>
      <source>is {intensity_pct:g} %; there are times for {least_pct:g} % to {most_pct:g} %.</source>
      <translation>es {intensity_pct:g} %; hay tiempos de {least_pct:g} % a {most_pct:g} %.</translation>
    </message>
    <message>
      <source>is {kg:g} kg; it must be 0 to {mass_most_kg:g} kg.</source>
      <translation>es {kg:g} kg; debe ser de 0 a {mass_most_kg:g} kg.</translation>
    </message>
    <message>
      <source>is {kg:g} kg; it must be {least:g} to {most:g} kg.</source>
      <translation>es {kg:g} kg; debe ser de {least:g} a {most:g} kg.</translation>
    </message>
    <message>
      <source>is {latitude_deg:g}°; it must be −90 to 90.</source>
      <translation>es {latitude_deg:g}°; debe ser de −90 a 90.</translation>
    </message>
    <message>
      <source>is {least_pct:g} %, which is next to nothing.</source>
      <translation>es {least_pct:g} %, casi nada.</translation>
    </message>
    <message>
      <source>is {least_pct:g} %; it must be 1 % to {most_pct:g} %.</source>
      <translation>es {least_pct:g} %; debe ser de 1 % a {most_pct:g} %.</translation>
    </message>
    <message>
      <source>is {level}; it must be 0 to {pain_most}.</source>
      <translation>es {level}; debe ser de 0 a {pain_most}.</translation>
    </message>
    <message>
      <source>is {lower_n:g} N; it must be 0 N to {force_max_n:g} N.</source>
      <translation>es {lower_n:g} N; debe ser de 0 N a {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>is {m_s2:g}; on Earth it is 9.76 to 9.84.</source>
      <translation>es {m_s2:g}; en la Tierra es de 9,76 a 9,84.</translation>
    </message>
    <message>
      <source>is {mass_kg:g} kg; it must be {mass_least_kg:g} to {mass_most_kg:g} kg.</source>
      <translation>es {mass_kg:g} kg; debe ser de {mass_least_kg:g} a {mass_most_kg:g} kg.</translation>
    </message>
    <message>
      <source>is {most}; it must be 0 to {pain_most}.</source>
      <translation>es {most}; debe ser de 0 a {pain_most}.</translation>
    </message>
    <message>
      <source>is {number:g}; it must be {least:g} to {most:g}.</source>
      <translation>es {number:g}; debe ser de {least:g} a {most:g}.</translation>
    </message>
    <message>
      <source>is {number}; it must be 1 to {most}.</source>
      <translation>es {number}; debe ser de 1 a {most}.</translation>
    </message>
    <message>
      <source>is {pain}; it must be 0 to {pain_most}.</source>
      <translation>es {pain}; debe ser de 0 a {pain_most}.</translation>
    </message>
    <message>
      <source>is {pct:g}; it must be 1 % to 300 %.</source>
      <translation>es {pct:g}; debe ser de 1 % a 300 %.</translation>
    </message>
    <message>
      <source>is {run}; runs are numbered from 1.</source>
      <translation>es {run}; las rondas se numeran desde 1.</translation>
    </message>
    <message>
      <source>is {sessions}; it must be 1 to {sessions_most} sessions.</source>
      <translation>es {sessions}; debe ser de 1 a {sessions_most} sesiones.</translation>
    </message>
    <message>
      <source>is {text_pct} %; it must be {text_least_pct} % to {text_most_pct} %.</source>
      <translation>es {text_pct} %; debe ser de {text_least_pct} % a {text_most_pct} %.</translation>
    </message>
    <message>
      <source>is {to_week}; it must be after week {from_week} and at most {weeks_max}.</source>
      <translation>es {to_week}; debe ser posterior a la semana {from_week} y como máximo {weeks_max}.</translation>
    </message>
    <message>
      <source>is {typed_n:g} N; it must be {reference_least_n:g} N to {force_max_n:g} N.</source>
      <translation>es {typed_n:g} N; debe ser de {reference_least_n:g} N a {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>is {u_n:g} N; it must be more than 0 N.</source>
      <translation>es {u_n:g} N; debe ser más de 0 N.</translation>
    </message>
    <message>
      <source>is {upper:g}; it must not be below the lower, {lower:g}.</source>
      <translation>es {upper:g}; no debe estar por debajo del inferior, {lower:g}.</translation>
    </message>
    <message>
      <source>is {upper_n:g} N; it must be at most {force_max_n:g} N.</source>
      <translation>es {upper_n:g} N; debe ser como máximo {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>is {upper_n:g} N; it must lie above the lower edge, {lower_n:g} N.</source>
      <translation>es {upper_n:g} N; debe estar por encima del borde inferior, {lower_n:g} N.</translation>
    </message>
    <message>
      <source>is {value:g} % of the reference, which is next to nothing.</source>
      <translation>es {value:g} % de la referencia, casi nada.</translation>
    </message>
    <message>
      <source>is {value}; it must be {least} to {most}.</source>
      <translation>es {value}; debe ser de {least} a {most}.</translation>
    </message>
    <message>
      <source>is {version}, and this program knows {version_2}.</source>
      <translation>es {version}, y este programa conoce {version_2}.</translation>
    </message>
    <message>
      <source>is {written} bytes as JSON; {most_bytes} fit into one frame.</source>
      <translation>ocupa {written} bytes como JSON; en una trama caben {most_bytes}.</translation>
    </message>
    <message>
      <source>is {year}; it must be {birth_year_least} or later.</source>
      <translation>es {year}; debe ser {birth_year_least} o después.</translation>
    </message>
    <message>
      <source>is “{band_on_value}”, but the rig has no such channel.</source>
      <translation>es «{band_on_value}», pero el equipo no tiene ese canal.</translation>
    </message>
    <message>
      <source>is “{self}”, and the athlete has no one injured side.</source>
      <translation>es «{self}», y el atleta no tiene un único lado lesionado.</translation>
    </message>
    <message>
      <source>isometric force</source>
      <translation>fuerza isométrica</translation>
    </message>
    <message>
      <source>isometric, N</source>
      <translation>isométrica, N</translation>
    </message>
    <message>
      <source>it cannot be brought into {folder} ({reason}).</source>
      <translation>no se puede llevar a {folder} ({reason}).</translation>
    </message>
    <message>
      <source>it follows the loads</source>
      <translation>sigue las cargas</translation>
    </message>
    <message>
      <source>it has {rate_hz:g} samples a second, and the first recording has {asked_hz:g}: settings belong to one rate</source>
      <translation>tiene {rate_hz:g} muestras por segundo y el primer registro {asked_hz:g}: los ajustes valen para una sola frecuencia</translation>
    </message>
    <message>
      <source>it is being written just now.</source>
      <translation>se está escribiendo ahora mismo.</translation>
    </message>
    <message>
      <source>it is longer than {samples_max} samples.</source>
      <translation>tiene más de {samples_max} muestras.</translation>
    </message>
    <message>
      <source>it is no recording and no table, by its name</source>
      <translation>por su nombre, no es ni grabación ni tabla</translation>
    </message>
    <message>
      <source>it misses the loads</source>
      <translation>no sigue las cargas</translation>
    </message>
    <message>
      <source>it takes no files ({reason}).</source>
      <translation>no admite archivos ({reason}).</translation>
    </message>
    <message>
      <source>it was changed while being read.</source>
      <translation>se cambió mientras se leía.</translation>
    </message>
    <message>
      <source>it was cut off before its end, and its last hold with it.</source>
      <translation>se cortó antes de su final, y con ella su última repetición.</translation>
    </message>
    <message>
      <source>its calibration</source>
      <translation>su calibración</translation>
    </message>
    <message>
      <source>its converter gives</source>
      <translation>su convertidor sigue</translation>
    </message>
    <message>
      <source>joint</source>
      <translation>articulación</translation>
    </message>
    <message>
      <source>judged</source>
      <translation>juzgada</translation>
    </message>
    <message>
      <source>judged, zero phase {hz} Hz</source>
      <translation>juzgada, fase cero {hz} Hz</translation>
    </message>
    <message>
      <source>key</source>
      <translation>tecla</translation>
    </message>
    <message>
      <source>kind</source>
      <translation>tipo</translation>
    </message>
    <message>
      <source>knee</source>
      <translation>rodilla</translation>
    </message>
    <message>
      <source>kneeling, trunk and thighs in line</source>
      <translation>de rodillas, tronco y muslos en línea</translation>
    </message>
    <message>
      <source>known mass</source>
      <translation>masa conocida</translation>
    </message>
    <message>
      <source>lack of fit</source>
      <translation>falta de ajuste</translation>
    </message>
    <message>
      <source>lack of fit F = {f:.4g} ({df_lack} and {df_pure} degrees of freedom, p = {p_value:.2g}), judged by repeated readings</source>
      <translation>falta de ajuste F = {f:.4g} ({df_lack} y {df_pure} grados de libertad, p = {p_value:.2g}), juzgada por lecturas repetidas</translation>
    </message>
    <message>
      <source>lack of fit F = {f:.5g} ({df_lack} and {df_pure} degrees of freedom, p = {p_value:.2g}): {verdict}</source>
      <translation>falta de ajuste F = {f:.5g} ({df_lack} y {df_pure} grados de libertad, p = {p_value:.2g}): {verdict}</translation>
    </message>
    <message>
      <source>lapse</source>
      <translation>salida</translation>
    </message>
    <message>
      <source>lapses</source>
      <translation>salidas</translation>
    </message>
    <message>
      <source>largest parts at {force_n:.4g} N, k = 1: {parts}</source>
      <translation>partes mayores a {force_n:.4g} N, k = 1: {parts}</translation>
    </message>
    <message>
      <source>last here {date}</source>
      <translation>última vez aquí {date}</translation>
    </message>
    <message>
      <source>last night</source>
      <translation>anoche</translation>
    </message>
    <message>
      <source>lasted, s</source>
      <translation>duró, s</translation>
    </message>
    <message>
      <source>least noise with age of the shown value under {age_ms:g} ms</source>
      <translation>menor ruido con una edad del valor mostrado menor de {age_ms:g} ms</translation>
    </message>
    <message>
      <source>least noise with age of the shown value under {age_ms:g} ms and overshoot at entry up to {overshoot_n:g} N</source>
      <translation>menor ruido con una edad del valor mostrado menor de {age_ms:g} ms y un rebase al entrar de hasta {overshoot_n:g} N</translation>
    </message>
    <message>
      <source>least-squares line</source>
      <translation>recta de mínimos cuadrados</translation>
    </message>
    <message>
      <source>least-squares line through the no-load reading</source>
      <translation>recta de mínimos cuadrados por la lectura sin carga</translation>
    </message>
    <message>
      <source>left</source>
      <translation>izquierda</translation>
    </message>
    <message>
      <source>left / right, N</source>
      <translation>izquierda / derecha, N</translation>
    </message>
    <message>
      <source>left share</source>
      <translation>parte izquierda</translation>
    </message>
    <message>
      <source>left side</source>
      <translation>lado izquierdo</translation>
    </message>
    <message>
      <source>left weaker</source>
      <translation>izquierda más débil</translation>
    </message>
    <message>
      <source>left {left} %, right {right} %</source>
      <translation>izquierda {left} %, derecha {right} %</translation>
    </message>
    <message>
      <source>left, dashed</source>
      <translation>izquierda, discontinua</translation>
    </message>
    <message>
      <source>left, then right</source>
      <translation>izquierda, luego derecha</translation>
    </message>
    <message>
      <source>lever arm</source>
      <translation>brazo de palanca</translation>
    </message>
    <message>
      <source>lever arm {arm_m:g} m</source>
      <translation>brazo de palanca {arm_m:g} m</translation>
    </message>
    <message>
      <source>limb resting</source>
      <translation>en reposo</translation>
    </message>
    <message>
      <source>limit {ms:g} ms</source>
      <translation>límite {ms:g} ms</translation>
    </message>
    <message>
      <source>limited by body mass; outside load may be due</source>
      <translation>lo limita la masa corporal; puede hacer falta carga externa</translation>
    </message>
    <message>
      <source>line</source>
      <translation>recta</translation>
    </message>
    <message>
      <source>line with the smallest largest deviation</source>
      <translation>recta con la menor desviación máxima</translation>
    </message>
    <message>
      <source>line {line}</source>
      <translation>línea {line}</translation>
    </message>
    <message>
      <source>line {line}, column 1</source>
      <translation>línea {line}, columna 1</translation>
    </message>
    <message>
      <source>line {line}, column {athlete}</source>
      <translation>línea {line}, columna {athlete}</translation>
    </message>
    <message>
      <source>line {line}, column {column}</source>
      <translation>línea {line}, columna {column}</translation>
    </message>
    <message>
      <source>line {line}, column {place}</source>
      <translation>línea {line}, columna {place}</translation>
    </message>
    <message>
      <source>line {number}</source>
      <translation>línea {number}</translation>
    </message>
    <message>
      <source>line {number}, column {column} ({name})</source>
      <translation>línea {number}, columna {column} ({name})</translation>
    </message>
    <message>
      <source>lines {lines}</source>
      <translation>líneas {lines}</translation>
    </message>
    <message>
      <source>lines {lines} and {more} more</source>
      <translation>líneas {lines} y {more} más</translation>
    </message>
    <message>
      <source>little time above the floor</source>
      <translation>poco tiempo sobre el suelo</translation>
    </message>
    <message>
      <source>live</source>
      <translation>en vivo</translation>
    </message>
    <message>
      <source>load</source>
      <translation>carga</translation>
    </message>
    <message>
      <source>load shared</source>
      <translation>carga compartida</translation>
    </message>
    <message>
      <source>loads</source>
      <translation>cargas</translation>
    </message>
    <message>
      <source>loads besides the empty rig</source>
      <translation>cargas además del equipo vacío</translation>
    </message>
    <message>
      <source>loads too close</source>
      <translation>cargas demasiado juntas</translation>
    </message>
    <message>
      <source>local gravity {m_s2:.6f} m/s² at latitude {latitude_deg:g}°, altitude {altitude_m:g} m ({formula})</source>
      <translation>gravedad local {m_s2:.6f} m/s² en latitud {latitude_deg:g}°, altitud {altitude_m:g} m ({formula})</translation>
    </message>
    <message>
      <source>longer</source>
      <translation>más largo</translation>
    </message>
    <message>
      <source>look at it</source>
      <translation>mirarlo</translation>
    </message>
    <message>
      <source>losses</source>
      <translation>pérdidas</translation>
    </message>
    <message>
      <source>lost</source>
      <translation>perdida</translation>
    </message>
    <message>
      <source>lower limit</source>
      <translation>límite inferior</translation>
    </message>
    <message>
      <source>lower limit factor {factor_n:.3g} N, so 0.25 % {upto}, in the manner of ASTM E74, class A (not a certificate)</source>
      <translation>factor del límite inferior {factor_n:.3g} N, así que 0,25 % {upto}, a la manera de ASTM E74, clase A (no es un certificado)</translation>
    </message>
    <message>
      <source>lowering</source>
      <translation>descenso</translation>
    </message>
    <message>
      <source>lowering mean</source>
      <translation>media del descenso</translation>
    </message>
    <message>
      <source>lowering peak</source>
      <translation>pico del descenso</translation>
    </message>
    <message>
      <source>lying face down, pelvis held</source>
      <translation>boca abajo, pelvis sujeta</translation>
    </message>
    <message>
      <source>lying on the back, knees bent, feet flat</source>
      <translation>boca arriba, rodillas dobladas, pies apoyados</translation>
    </message>
    <message>
      <source>mains hum</source>
      <translation>zumbido de red</translation>
    </message>
    <message>
      <source>marker {marker}</source>
      <translation>marcador {marker}</translation>
    </message>
    <message>
      <source>mass taken off</source>
      <translation>masa retirada</translation>
    </message>
    <message>
      <source>mass: {name}</source>
      <translation>masa: {name}</translation>
    </message>
    <message>
      <source>masses</source>
      <translation>masas</translation>
    </message>
    <message>
      <source>masses in kg</source>
      <translation>masas en kg</translation>
    </message>
    <message>
      <source>maximal</source>
      <translation>máxima</translation>
    </message>
    <message>
      <source>mean</source>
      <translation>media</translation>
    </message>
    <message>
      <source>mean of all trials; agreement</source>
      <translation>media de todos los intentos; concordancia</translation>
    </message>
    <message>
      <source>mean of all trials; consistency</source>
      <translation>media de todos los intentos; consistencia</translation>
    </message>
    <message>
      <source>mean of all trials; in no order</source>
      <translation>media de todos los intentos; sin orden</translation>
    </message>
    <message>
      <source>mean of both</source>
      <translation>media de ambas</translation>
    </message>
    <message>
      <source>mean of {first} and {second} ({unit})</source>
      <translation>media de {first} y {second} ({unit})</translation>
    </message>
    <message>
      <source>mean, N</source>
      <translation>media, N</translation>
    </message>
    <message>
      <source>measure</source>
      <translation>medida</translation>
    </message>
    <message>
      <source>measured in another position</source>
      <translation>medida en otra posición</translation>
    </message>
    <message>
      <source>measured with pain</source>
      <translation>medida con dolor</translation>
    </message>
    <message>
      <source>median</source>
      <translation>mediana</translation>
    </message>
    <message>
      <source>men</source>
      <translation>hombres</translation>
    </message>
    <message>
      <source>met</source>
      <translation>cumplido</translation>
    </message>
    <message>
      <source>met from {from_n:.4g} to {to_n:.4g} N, {manner}</source>
      <translation>se cumple de {from_n:.4g} a {to_n:.4g} N, {manner}</translation>
    </message>
    <message>
      <source>misfit</source>
      <translation>desajuste</translation>
    </message>
    <message>
      <source>more than an hour is missing in between, which cannot be written as evenly spaced samples.</source>
      <translation>en medio falta más de una hora, y eso no se puede escribir como muestras a intervalos iguales.</translation>
    </message>
    <message>
      <source>more than noise of ± {n} N</source>
      <translation>más que el ruido de ± {n} N</translation>
    </message>
    <message>
      <source>more than the noise</source>
      <translation>más que el ruido</translation>
    </message>
    <message>
      <source>moved by hand</source>
      <translation>movida a mano</translation>
    </message>
    <message>
      <source>movement</source>
      <translation>movimiento</translation>
    </message>
    <message>
      <source>moving average</source>
      <translation>media móvil</translation>
    </message>
    <message>
      <source>moving average of {n}</source>
      <translation>media móvil de {n}</translation>
    </message>
    <message>
      <source>multiple of body mass</source>
      <translation>múltiplo de la masa corporal</translation>
    </message>
    <message>
      <source>must be 0 % to 100 %.</source>
      <translation>debe ser de 0 % a 100 %.</translation>
    </message>
    <message>
      <source>must be 0 N or more.</source>
      <translation>debe ser 0 N o más.</translation>
    </message>
    <message>
      <source>must be 0 h to {sleep_most_h:g} h.</source>
      <translation>debe ser de 0 h a {sleep_most_h:g} h.</translation>
    </message>
    <message>
      <source>must be 0 or more.</source>
      <translation>debe ser 0 o más.</translation>
    </message>
    <message>
      <source>must be 0 s to 3600 s.</source>
      <translation>debe ser de 0 s a 3600 s.</translation>
    </message>
    <message>
      <source>must be 0 s to 60 s.</source>
      <translation>debe ser de 0 s a 60 s.</translation>
    </message>
    <message>
      <source>must be 0 to 100 %.</source>
      <translation>debe ser de 0 a 100 %.</translation>
    </message>
    <message>
      <source>must be 0 to 50 points.</source>
      <translation>debe ser de 0 a 50 puntos.</translation>
    </message>
    <message>
      <source>must be 0 to {pain_most}.</source>
      <translation>debe ser de 0 a {pain_most}.</translation>
    </message>
    <message>
      <source>must be 0 to {weeks_max}.</source>
      <translation>debe ser de 0 a {weeks_max}.</translation>
    </message>
    <message>
      <source>must be 0 to {within_days_most} days.</source>
      <translation>debe ser de 0 a {within_days_most} días.</translation>
    </message>
    <message>
      <source>must be 0.000001 N to 1000000 N.</source>
      <translation>debe ser de 0,000001 N a 1000000 N.</translation>
    </message>
    <message>
      <source>must be 0.1 Hz to {rate_max_hz:g} Hz.</source>
      <translation>debe ser de 0,1 Hz a {rate_max_hz:g} Hz.</translation>
    </message>
    <message>
      <source>must be 1 % to 200 %.</source>
      <translation>debe ser de 1 % a 200 %.</translation>
    </message>
    <message>
      <source>must be 1 N to 10 000 N.</source>
      <translation>debe ser de 1 N a 10 000 N.</translation>
    </message>
    <message>
      <source>must be 1 or 2.</source>
      <translation>debe ser 1 o 2.</translation>
    </message>
    <message>
      <source>must be 1 to 100.</source>
      <translation>debe ser de 1 a 100.</translation>
    </message>
    <message>
      <source>must be 1 to 1000.</source>
      <translation>debe ser de 1 a 1000.</translation>
    </message>
    <message>
      <source>must be 1 to 520 weeks.</source>
      <translation>debe ser de 1 a 520 semanas.</translation>
    </message>
    <message>
      <source>must be 1 to {channels_max} channels.</source>
      <translation>debe ser de 1 a {channels_max} canales.</translation>
    </message>
    <message>
      <source>must be 1 to {channels_max}.</source>
      <translation>debe ser de 1 a {channels_max}.</translation>
    </message>
    <message>
      <source>must be 1 to {code_length} letters, digits and hyphens.</source>
      <translation>debe tener de 1 a {code_length} letras, cifras y guiones.</translation>
    </message>
    <message>
      <source>must be 1 to {gain_max}.</source>
      <translation>debe ser de 1 a {gain_max}.</translation>
    </message>
    <message>
      <source>must be 1 to {legs_max} sets.</source>
      <translation>debe ser de 1 a {legs_max} series.</translation>
    </message>
    <message>
      <source>must be 1 to {runs_most}.</source>
      <translation>debe ser de 1 a {runs_most}.</translation>
    </message>
    <message>
      <source>must be 1 to {stages_max} stages.</source>
      <translation>debe ser de 1 a {stages_max} etapas.</translation>
    </message>
    <message>
      <source>must be 1 to {stale_days_most} days.</source>
      <translation>debe ser de 1 a {stale_days_most} días.</translation>
    </message>
    <message>
      <source>must be 1, or 2 with a channel each.</source>
      <translation>debe ser 1, o 2 con un canal cada uno.</translation>
    </message>
    <message>
      <source>must be 16 hexadecimal digits.</source>
      <translation>debe tener 16 dígitos hexadecimales.</translation>
    </message>
    <message>
      <source>must be 64 hexadecimal digits.</source>
      <translation>deben ser 64 cifras hexadecimales.</translation>
    </message>
    <message>
      <source>must be a JSON object.</source>
      <translation>debe ser un objeto JSON.</translation>
    </message>
    <message>
      <source>must be a day to come.</source>
      <translation>debe ser un día por venir.</translation>
    </message>
    <message>
      <source>must be a finite number.</source>
      <translation>debe ser un número finito.</translation>
    </message>
    <message>
      <source>must be a list of at most {uncertainties_max} pairs.</source>
      <translation>debe ser una lista de {uncertainties_max} pares como máximo.</translation>
    </message>
    <message>
      <source>must be a list.</source>
      <translation>debe ser una lista.</translation>
    </message>
    <message>
      <source>must be a lowering.</source>
      <translation>debe ser un descenso.</translation>
    </message>
    <message>
      <source>must be a number.</source>
      <translation>debe ser un número.</translation>
    </message>
    <message>
      <source>must be a percentage, as the intensity is.</source>
      <translation>debe ser un porcentaje, como la intensidad.</translation>
    </message>
    <message>
      <source>must be a power of two.</source>
      <translation>debe ser una potencia de dos.</translation>
    </message>
    <message>
      <source>must be a text.</source>
      <translation>debe ser un texto.</translation>
    </message>
    <message>
      <source>must be a whole number from 1 to {most}.</source>
      <translation>debe ser un número entero de 1 a {most}.</translation>
    </message>
    <message>
      <source>must be a whole number, 0 to {pain_most}.</source>
      <translation>debe ser un número entero, 0 a {pain_most}.</translation>
    </message>
    <message>
      <source>must be a whole number.</source>
      <translation>debe ser un número entero.</translation>
    </message>
    <message>
      <source>must be a year, four digits.</source>
      <translation>debe ser un año, cuatro cifras.</translation>
    </message>
    <message>
      <source>must be above the low cut, {low}, and below {pain_most}: at {pain_most} nothing would ever advise to stop.</source>
      <translation>debe estar por encima del límite bajo, {low}, y por debajo de {pain_most}: con {pain_most} nada aconsejaría nunca parar.</translation>
    </message>
    <message>
      <source>must be an ISO time with its zone.</source>
      <translation>debe ser una hora ISO con su zona.</translation>
    </message>
    <message>
      <source>must be an object.</source>
      <translation>debe ser un objeto.</translation>
    </message>
    <message>
      <source>must be at most {lines_most}.</source>
      <translation>debe ser como máximo {lines_most}.</translation>
    </message>
    <message>
      <source>must be at most {reason_max} characters.</source>
      <translation>debe tener como máximo {reason_max} caracteres.</translation>
    </message>
    <message>
      <source>must be forces above 0 N.</source>
      <translation>deben ser fuerzas mayores que 0 N.</translation>
    </message>
    <message>
      <source>must be in the order of their days.</source>
      <translation>deben ir en el orden de sus días.</translation>
    </message>
    <message>
      <source>must be more than 0 % a second.</source>
      <translation>debe ser más de 0 % por segundo.</translation>
    </message>
    <message>
      <source>must be more than 0 % and at most 100 %.</source>
      <translation>debe ser más de 0 % y como máximo 100 %.</translation>
    </message>
    <message>
      <source>must be more than 0 N and at most {force_max_n:g} N.</source>
      <translation>debe ser más de 0 N y como máximo {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>must be more than 0.</source>
      <translation>debe ser más de 0.</translation>
    </message>
    <message>
      <source>must be of at least two people and two trials.</source>
      <translation>deben ser de al menos dos personas y dos intentos.</translation>
    </message>
    <message>
      <source>must be one column, or left and right.</source>
      <translation>debe ser una columna, o izquierda y derecha.</translation>
    </message>
    <message>
      <source>must be one of {known} Hz.</source>
      <translation>debe ser uno de {known} Hz.</translation>
    </message>
    <message>
      <source>must be one of {listed}.</source>
      <translation>debe ser uno de: {listed}.</translation>
    </message>
    <message>
      <source>must be one of: {known}.</source>
      <translation>debe ser uno de: {known}.</translation>
    </message>
    <message>
      <source>must be one that a trial is measured by.</source>
      <translation>debe ser una con la que se mide un intento.</translation>
    </message>
    <message>
      <source>must be three numbers or more.</source>
      <translation>deben ser tres números o más.</translation>
    </message>
    <message>
      <source>must be three numbers: time, left, right.</source>
      <translation>deben ser tres números: tiempo, izquierda, derecha.</translation>
    </message>
    <message>
      <source>must be true or false.</source>
      <translation>debe ser true o false.</translation>
    </message>
    <message>
      <source>must be up or down.</source>
      <translation>debe ser up o down.</translation>
    </message>
    <message>
      <source>must be {factor_least:g} to {factor_most:g}.</source>
      <translation>debe ser de {factor_least:g} a {factor_most:g}.</translation>
    </message>
    <message>
      <source>must be {hold_least_s:g} s to 3600 s.</source>
      <translation>debe ser de {hold_least_s:g} s a 3600 s.</translation>
    </message>
    <message>
      <source>must be {least:g}{unit} to {most:g}{unit}.</source>
      <translation>debe ser de {least:g}{unit} a {most:g}{unit}.</translation>
    </message>
    <message>
      <source>must be {least_pct:g} % to {most_pct:g} %.</source>
      <translation>debe ser de {least_pct:g} % a {most_pct:g} %.</translation>
    </message>
    <message>
      <source>must be {size} bytes.</source>
      <translation>debe tener {size} bytes.</translation>
    </message>
    <message>
      <source>must be {step_least:g} % to 100 % of the range.</source>
      <translation>debe ser de {step_least:g} % a 100 % del rango.</translation>
    </message>
    <message>
      <source>must be “{format}”.</source>
      <translation>debe ser «{format}».</translation>
    </message>
    <message>
      <source>must be “{plan_format}”.</source>
      <translation>debe ser «{plan_format}».</translation>
    </message>
    <message>
      <source>must be “{running}” in a lowering.</source>
      <translation>debe ser «{running}» en un descenso.</translation>
    </message>
    <message>
      <source>must be −{angle_most_deg:g} to {angle_most_deg:g} degrees.</source>
      <translation>debe ser de −{angle_most_deg:g} a {angle_most_deg:g} grados.</translation>
    </message>
    <message>
      <source>must have 1 to {name_max} characters.</source>
      <translation>debe tener de 1 a {name_max} caracteres.</translation>
    </message>
    <message>
      <source>must have 1 to {word_max} characters.</source>
      <translation>debe tener de 1 a {word_max} caracteres.</translation>
    </message>
    <message>
      <source>must have at most 100 characters.</source>
      <translation>debe tener como máximo 100 caracteres.</translation>
    </message>
    <message>
      <source>must have at most {label_max} characters and not be “{latest}”.</source>
      <translation>debe tener como máximo {label_max} caracteres y no ser «{latest}».</translation>
    </message>
    <message>
      <source>must have one value a channel.</source>
      <translation>debe tener un valor por canal.</translation>
    </message>
    <message>
      <source>must have times that rise.</source>
      <translation>debe tener tiempos crecientes.</translation>
    </message>
    <message>
      <source>must hold an object.</source>
      <translation>debe contener un objeto.</translation>
    </message>
    <message>
      <source>must hold pairs of a force and an uncertainty.</source>
      <translation>debe tener pares de una fuerza y una incertidumbre.</translation>
    </message>
    <message>
      <source>must lie above the band, which reaches to {least_n:g} N, and be at most {force_max_n:g} N.</source>
      <translation>debe estar por encima de la banda, que llega a {least_n:g} N, y ser como máximo {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>must name a task.</source>
      <translation>debe nombrar una tarea.</translation>
    </message>
    <message>
      <source>must name at least one column.</source>
      <translation>debe nombrar al menos una columna.</translation>
    </message>
    <message>
      <source>must name the board, with at most 100 characters.</source>
      <translation>debe nombrar la placa, con 100 caracteres como máximo.</translation>
    </message>
    <message>
      <source>must not be 0.</source>
      <translation>no debe ser 0.</translation>
    </message>
    <message>
      <source>must not be empty.</source>
      <translation>no debe estar vacío.</translation>
    </message>
    <message>
      <source>must not be longer than the rest after a trial, {rest_s:g} s.</source>
      <translation>no debe ser más largo que el descanso tras un intento, {rest_s:g} s.</translation>
    </message>
    <message>
      <source>must not be more than what counts as kept.</source>
      <translation>no debe ser más de lo que cuenta como mantenido.</translation>
    </message>
    <message>
      <source>must not be more than {most}.</source>
      <translation>no debe ser más de {most}.</translation>
    </message>
    <message>
      <source>must rise in force.</source>
      <translation>debe ir de menor a mayor fuerza.</translation>
    </message>
    <message>
      <source>must say why it does not count.</source>
      <translation>debe decir por qué no cuenta.</translation>
    </message>
    <message>
      <source>must say why the rep counts after all.</source>
      <translation>debe decir por qué la repetición sí cuenta.</translation>
    </message>
    <message>
      <source>must say why the rep does not count.</source>
      <translation>debe decir por qué la repetición no cuenta.</translation>
    </message>
    <message>
      <source>must say why the test does not count.</source>
      <translation>debe decir por qué no cuenta la prueba.</translation>
    </message>
    <message>
      <source>must say why the trial does not count.</source>
      <translation>debe decir por qué no cuenta el intento.</translation>
    </message>
    <message>
      <source>must stay in order: onset, entry, end of the hold.</source>
      <translation>deben seguir en orden: inicio, entrada, fin.</translation>
    </message>
    <message>
      <source>must stay within what is drawn.</source>
      <translation>debe quedar dentro de lo dibujado.</translation>
    </message>
    <message>
      <source>must stay {old}: recordings were made under it.</source>
      <translation>debe seguir siendo {old}: hay grabaciones con él.</translation>
    </message>
    <message>
      <source>names and notes are sealed and were not opened.</source>
      <translation>los nombres y las notas están cifrados y no se abrieron.</translation>
    </message>
    <message>
      <source>names no board, so no other calibration can be told to be its own.</source>
      <translation>no nombra ninguna placa, así que no se sabe si otra calibración es la suya.</translation>
    </message>
    <message>
      <source>near {now_s:.3f} s</source>
      <translation>hacia {now_s:.3f} s</translation>
    </message>
    <message>
      <source>needs a left and a right cell on the rig.</source>
      <translation>necesita una célula izquierda y una derecha en el equipo.</translation>
    </message>
    <message>
      <source>needs a name of 1 to {name_max} characters.</source>
      <translation>necesita un nombre de 1 a {name_max} caracteres.</translation>
    </message>
    <message>
      <source>needs a slope that is not zero.</source>
      <translation>necesita una pendiente distinta de cero.</translation>
    </message>
    <message>
      <source>needs a tolerance.</source>
      <translation>necesita una tolerancia.</translation>
    </message>
    <message>
      <source>needs an intensity in % too.</source>
      <translation>necesita también una intensidad en %.</translation>
    </message>
    <message>
      <source>needs at least one point.</source>
      <translation>necesita al menos un punto.</translation>
    </message>
    <message>
      <source>needs more than 0 degrees of freedom.</source>
      <translation>necesita más de 0 grados de libertad.</translation>
    </message>
    <message>
      <source>needs {least_hz:.0f} Hz or more; this was {rate_hz:.0f} Hz</source>
      <translation>necesita {least_hz:.0f} Hz o más; esta fue de {rate_hz:.0f} Hz</translation>
    </message>
    <message>
      <source>needs {length_s:.0f} s without a gap at {rate_hz:.0f} Hz or more</source>
      <translation>necesita {length_s:.0f} s sin hueco a {rate_hz:.0f} Hz o más</translation>
    </message>
    <message>
      <source>neither falling readings nor creep were taken</source>
      <translation>no se tomaron ni lecturas decrecientes ni fluencia</translation>
    </message>
    <message>
      <source>newest</source>
      <translation>última</translation>
    </message>
    <message>
      <source>no answer to load</source>
      <translation>sin respuesta a la carga</translation>
    </message>
    <message>
      <source>no column is named indication or counts.</source>
      <translation>ninguna columna se llama indication ni counts.</translation>
    </message>
    <message>
      <source>no date</source>
      <translation>sin fecha</translation>
    </message>
    <message>
      <source>no difference</source>
      <translation>sin diferencia</translation>
    </message>
    <message>
      <source>no empty rig at the end</source>
      <translation>no hay equipo vacío al final</translation>
    </message>
    <message>
      <source>no falling load</source>
      <translation>ninguna carga decreciente</translation>
    </message>
    <message>
      <source>no filter</source>
      <translation>sin filtro</translation>
    </message>
    <message>
      <source>no finite interval</source>
      <translation>sin intervalo finito</translation>
    </message>
    <message>
      <source>no fresh sample</source>
      <translation>sin muestra reciente</translation>
    </message>
    <message>
      <source>no gain given</source>
      <translation>sin ganancia indicada</translation>
    </message>
    <message>
      <source>no hold is long enough</source>
      <translation>ningún mantenimiento es lo bastante largo</translation>
    </message>
    <message>
      <source>no newtons yet</source>
      <translation>aún sin newtons</translation>
    </message>
    <message>
      <source>no onset: already pulling {mean_n:.0f} N</source>
      <translation>sin inicio: ya tiraba {mean_n:.0f} N</translation>
    </message>
    <message>
      <source>no onset: already pulling, {drift_n:.0f} N more in half a second</source>
      <translation>sin inicio: ya tiraba, {drift_n:.0f} N más en medio segundo</translation>
    </message>
    <message>
      <source>no onset: half a second without a gap is missing before it</source>
      <translation>sin inicio: falta medio segundo sin huecos antes</translation>
    </message>
    <message>
      <source>no onset: no rise from the baseline</source>
      <translation>sin inicio: ninguna subida desde la base</translation>
    </message>
    <message>
      <source>no onset: not at rest before the rise, spread {spread_n:.1f} N</source>
      <translation>sin inicio: sin reposo antes de la subida, dispersión {spread_n:.1f} N</translation>
    </message>
    <message>
      <source>no plan: the set of the desk</source>
      <translation>sin plan: la serie de la mesa</translation>
    </message>
    <message>
      <source>no rate is given and no column is named time.</source>
      <translation>no se da la frecuencia y ninguna columna se llama time.</translation>
    </message>
    <message>
      <source>no reading of the cell gives {force_n:.4g} N by it.</source>
      <translation>con ella ninguna lectura de la célula da {force_n:.4g} N.</translation>
    </message>
    <message>
      <source>no reason given</source>
      <translation>sin motivo indicado</translation>
    </message>
    <message>
      <source>no run came back to the empty rig</source>
      <translation>ninguna vuelta regresó al equipo vacío</translation>
    </message>
    <message>
      <source>no run has three rising loads to judge by</source>
      <translation>ninguna vuelta tiene tres cargas crecientes para juzgar</translation>
    </message>
    <message>
      <source>no sample is good: all are at the cell's stop.</source>
      <translation>ninguna muestra es buena: todas están en el tope de la célula.</translation>
    </message>
    <message>
      <source>no set is to begin now.</source>
      <translation>ahora no ha de empezar ninguna serie.</translation>
    </message>
    <message>
      <source>no signal</source>
      <translation>sin señal</translation>
    </message>
    <message>
      <source>no space left on device</source>
      <translation>no queda espacio en el disco</translation>
    </message>
    <message>
      <source>no such calibration of {serial_number} is in the logbook.</source>
      <translation>no hay tal calibración de {serial_number} en el registro.</translation>
    </message>
    <message>
      <source>no such device</source>
      <translation>no existe ese dispositivo</translation>
    </message>
    <message>
      <source>no such file or directory</source>
      <translation>no existe el archivo o la carpeta</translation>
    </message>
    <message>
      <source>no such peak is known</source>
      <translation>no se conoce tal pico</translation>
    </message>
    <message>
      <source>no test of two people yet</source>
      <translation>aún ningún test de dos personas</translation>
    </message>
    <message>
      <source>no upper edge</source>
      <translation>sin borde superior</translation>
    </message>
    <message>
      <source>noise</source>
      <translation>ruido</translation>
    </message>
    <message>
      <source>noise alone would leave the band {often} for a force held at {held_n:.4g} N, and {often_2} at {held_n_2:.4g} N, half way to the edge.</source>
      <translation>el ruido solo saldría de la banda {often} con una fuerza de {held_n:.4g} N, y {often_2} con {held_n_2:.4g} N, a mitad de camino al borde.</translation>
    </message>
    <message>
      <source>noise in holds (N/√Hz)</source>
      <translation>ruido al mantener (N/√Hz)</translation>
    </message>
    <message>
      <source>noise left in holds (N rms)</source>
      <translation>ruido restante al mantener (N rms)</translation>
    </message>
    <message>
      <source>noise of the reading</source>
      <translation>ruido de la lectura</translation>
    </message>
    <message>
      <source>nominal</source>
      <translation>nominal</translation>
    </message>
    <message>
      <source>non-linearity from the {line}</source>
      <translation>no linealidad respecto a: {line}</translation>
    </message>
    <message>
      <source>none</source>
      <translation>ninguno</translation>
    </message>
    <message>
      <source>none: no percentages</source>
      <translation>ninguna: sin porcentajes</translation>
    </message>
    <message>
      <source>not a directory</source>
      <translation>no es una carpeta</translation>
    </message>
    <message>
      <source>not asked</source>
      <translation>sin dato</translation>
    </message>
    <message>
      <source>not calibrated</source>
      <translation>sin calibrar</translation>
    </message>
    <message>
      <source>not filtered</source>
      <translation>sin filtrar</translation>
    </message>
    <message>
      <source>not judged</source>
      <translation>sin dictamen</translation>
    </message>
    <message>
      <source>not known</source>
      <translation>no se sabe</translation>
    </message>
    <message>
      <source>not met</source>
      <translation>no cumplido</translation>
    </message>
    <message>
      <source>not met {manner}: {reason}</source>
      <translation>no se cumple {manner}: {reason}</translation>
    </message>
    <message>
      <source>not recorded</source>
      <translation>no se graba</translation>
    </message>
    <message>
      <source>not said</source>
      <translation>no se dijo</translation>
    </message>
    <message>
      <source>not written down</source>
      <translation>sin anotar</translation>
    </message>
    <message>
      <source>nothing</source>
      <translation>nada</translation>
    </message>
    <message>
      <source>nothing chosen</source>
      <translation>nada elegido</translation>
    </message>
    <message>
      <source>nothing is asked for.</source>
      <translation>no se pide nada.</translation>
    </message>
    <message>
      <source>nothing is done by “{own}”.</source>
      <translation>«{own}» no hace nada.</translation>
    </message>
    <message>
      <source>nothing measured yet</source>
      <translation>aún no se ha medido nada</translation>
    </message>
    <message>
      <source>now</source>
      <translation>ahora</translation>
    </message>
    <message>
      <source>nowhere in the range</source>
      <translation>en ninguna parte del intervalo</translation>
    </message>
    <message>
      <source>nudge</source>
      <translation>ajuste</translation>
    </message>
    <message>
      <source>number</source>
      <translation>número</translation>
    </message>
    <message>
      <source>of a hold must be above zero.</source>
      <translation>de una repetición debe ser mayor que cero.</translation>
    </message>
    <message>
      <source>of a noise band must not be below its lower.</source>
      <translation>de una banda de ruido no debe estar por debajo del inferior.</translation>
    </message>
    <message>
      <source>of a point must be a finite number.</source>
      <translation>de un punto debe ser un número finito.</translation>
    </message>
    <message>
      <source>of another task</source>
      <translation>de otra tarea</translation>
    </message>
    <message>
      <source>of changes that are noise, 95 % lie between {lower:.0f} and {upper:.0f} % (1.96 √2 e, by logarithms; typical error e {own:.1f} %)</source>
      <translation>de los cambios que son ruido, el 95 % está entre {lower:.0f} y {upper:.0f} % (1,96 √2 e, por logaritmos; error típico e {own:.1f} %)</translation>
    </message>
    <message>
      <source>of changes that are noise, 95 % lie between {lower:.0f} and {upper:.0f} % ({formula}, by logarithms; typical errors {own:.1f} and {other:.1f} %)</source>
      <translation>de los cambios que son ruido, el 95 % está entre {lower:.0f} y {upper:.0f} % ({formula}, por logaritmos; errores típicos {own:.1f} y {other:.1f} %)</translation>
    </message>
    <message>
      <source>of the last</source>
      <translation>de la última</translation>
    </message>
    <message>
      <source>of the other side</source>
      <translation>del otro lado</translation>
    </message>
    <message>
      <source>of the two results are not the same.</source>
      <translation>de los dos resultados no son los mismos.</translation>
    </message>
    <message>
      <source>of the value from before the injury</source>
      <translation>del valor de antes de la lesión</translation>
    </message>
    <message>
      <source>of the {definition}</source>
      <translation>de {definition}</translation>
    </message>
    <message>
      <source>of today</source>
      <translation>de hoy</translation>
    </message>
    <message>
      <source>of {most}</source>
      <translation>de {most}</translation>
    </message>
    <message>
      <source>off reference (N)</source>
      <translation>desvío (N)</translation>
    </message>
    <message>
      <source>old</source>
      <translation>vieja</translation>
    </message>
    <message>
      <source>on average</source>
      <translation>de media</translation>
    </message>
    <message>
      <source>on each side</source>
      <translation>en cada lado</translation>
    </message>
    <message>
      <source>one athlete</source>
      <translation>un atleta</translation>
    </message>
    <message>
      <source>one athlete, average of several rows</source>
      <translation>un atleta, media de varias filas</translation>
    </message>
    <message>
      <source>one score; agreement</source>
      <translation>un valor; concordancia</translation>
    </message>
    <message>
      <source>one score; consistency</source>
      <translation>un valor; consistencia</translation>
    </message>
    <message>
      <source>one score; trials in no order</source>
      <translation>un valor; intentos sin orden</translation>
    </message>
    <message>
      <source>one side at a time</source>
      <translation>un lado cada vez</translation>
    </message>
    <message>
      <source>one step down</source>
      <translation>un paso abajo</translation>
    </message>
    <message>
      <source>one step up</source>
      <translation>un paso arriba</translation>
    </message>
    <message>
      <source>one-euro</source>
      <translation>one-euro</translation>
    </message>
    <message>
      <source>one-euro, {hz:g} Hz, {beta:g} per N</source>
      <translation>«one-euro», {hz:g} Hz, {beta:g} por N</translation>
    </message>
    <message>
      <source>only band, hold, rest and reps change within a set.</source>
      <translation>dentro de una serie solo cambian banda, tiempo, descanso y repeticiones.</translation>
    </message>
    <message>
      <source>only outside the band</source>
      <translation>solo fuera de la banda</translation>
    </message>
    <message>
      <source>onset method</source>
      <translation>método del inicio</translation>
    </message>
    <message>
      <source>opened</source>
      <translation>abierto</translation>
    </message>
    <message>
      <source>opening</source>
      <translation>abriendo</translation>
    </message>
    <message>
      <source>operation not permitted</source>
      <translation>operación no permitida</translation>
    </message>
    <message>
      <source>other</source>
      <translation>otra</translation>
    </message>
    <message>
      <source>other side's best</source>
      <translation>mejor del otro lado</translation>
    </message>
    <message>
      <source>other side, then the injured</source>
      <translation>el otro lado, luego el lesionado</translation>
    </message>
    <message>
      <source>outcome</source>
      <translation>resultado</translation>
    </message>
    <message>
      <source>outside</source>
      <translation>fuera</translation>
    </message>
    <message>
      <source>overload</source>
      <translation>sobrecarga</translation>
    </message>
    <message>
      <source>overshoot</source>
      <translation>exceso de entrada</translation>
    </message>
    <message>
      <source>own side's best</source>
      <translation>mejor del propio lado</translation>
    </message>
    <message>
      <source>pad on the back of the forearm, above the wrist</source>
      <translation>almohadilla en el dorso del antebrazo, sobre la muñeca</translation>
    </message>
    <message>
      <source>pad on the shin, 5 cm above the outer ankle</source>
      <translation>almohadilla en la espinilla, 5 cm sobre el tobillo externo</translation>
    </message>
    <message>
      <source>pad on the thigh, just above the knee</source>
      <translation>almohadilla en el muslo, justo sobre la rodilla</translation>
    </message>
    <message>
      <source>pad or strap</source>
      <translation>almohadilla o correa</translation>
    </message>
    <message>
      <source>pads on the inner side of both knees</source>
      <translation>almohadillas en la cara interna de ambas rodillas</translation>
    </message>
    <message>
      <source>page {number} of {pages}</source>
      <translation>página {number} de {pages}</translation>
    </message>
    <message>
      <source>pain</source>
      <translation>dolor</translation>
    </message>
    <message>
      <source>pain at most</source>
      <translation>dolor como máximo</translation>
    </message>
    <message>
      <source>pain in or after the set</source>
      <translation>dolor en la serie o después</translation>
    </message>
    <message>
      <source>pain in or after the set, of 10</source>
      <translation>dolor en la serie o después, de 10</translation>
    </message>
    <message>
      <source>pain {level}</source>
      <translation>dolor {level}</translation>
    </message>
    <message>
      <source>pain {level} of 10</source>
      <translation>dolor {level} de 10</translation>
    </message>
    <message>
      <source>pain {level} of 10, taken back</source>
      <translation>dolor {level} de 10, retirado</translation>
    </message>
    <message>
      <source>pain {pain} ({when}) after {before} before the last session is a rise.</source>
      <translation>dolor {pain} ({when}) tras {before} antes de la última sesión es una subida.</translation>
    </message>
    <message>
      <source>pain {pain} of {pain_most} ({when})</source>
      <translation>dolor {pain} de {pain_most} ({when})</translation>
    </message>
    <message>
      <source>parts of the name, such as a first name in a note of somebody else</source>
      <translation>partes del nombre, como un nombre de pila en una nota de otra persona</translation>
    </message>
    <message>
      <source>paused</source>
      <translation>en pausa</translation>
    </message>
    <message>
      <source>peak</source>
      <translation>pico</translation>
    </message>
    <message>
      <source>peak early</source>
      <translation>pico temprano</translation>
    </message>
    <message>
      <source>peak {n} N at {s} s</source>
      <translation>pico {n} N a los {s} s</translation>
    </message>
    <message>
      <source>peak, N</source>
      <translation>pico, N</translation>
    </message>
    <message>
      <source>permission denied</source>
      <translation>permiso denegado</translation>
    </message>
    <message>
      <source>plain board: {found}</source>
      <translation>placa sencilla: {found}</translation>
    </message>
    <message>
      <source>planned</source>
      <translation>previsto</translation>
    </message>
    <message>
      <source>plantar flexion</source>
      <translation>flexión plantar</translation>
    </message>
    <message>
      <source>please choose</source>
      <translation>elegir</translation>
    </message>
    <message>
      <source>points</source>
      <translation>puntos</translation>
    </message>
    <message>
      <source>points need a reference; here are newtons.</source>
      <translation>los puntos necesitan una referencia; aquí hay newtons.</translation>
    </message>
    <message>
      <source>points of the reference</source>
      <translation>puntos de la referencia</translation>
    </message>
    <message>
      <source>poor fit</source>
      <translation>mal ajuste</translation>
    </message>
    <message>
      <source>position not written down</source>
      <translation>posición sin anotar</translation>
    </message>
    <message>
      <source>posture</source>
      <translation>postura</translation>
    </message>
    <message>
      <source>power</source>
      <translation>potencia</translation>
    </message>
    <message>
      <source>power 0–4 Hz</source>
      <translation>potencia 0–4 Hz</translation>
    </message>
    <message>
      <source>power 4–8 Hz</source>
      <translation>potencia 4–8 Hz</translation>
    </message>
    <message>
      <source>power 8–12 Hz</source>
      <translation>potencia 8–12 Hz</translation>
    </message>
    <message>
      <source>practically never</source>
      <translation>prácticamente nunca</translation>
    </message>
    <message>
      <source>practice of {share} %</source>
      <translation>práctica al {share} %</translation>
    </message>
    <message>
      <source>practice ramp</source>
      <translation>subida de práctica</translation>
    </message>
    <message>
      <source>practice score</source>
      <translation>resultado de práctica</translation>
    </message>
    <message>
      <source>practice {share} %</source>
      <translation>práctica {share} %</translation>
    </message>
    <message>
      <source>practitioner's word</source>
      <translation>palabra del profesional</translation>
    </message>
    <message>
      <source>press</source>
      <translation>presión</translation>
    </message>
    <message>
      <source>press: {name}</source>
      <translation>presión: {name}</translation>
    </message>
    <message>
      <source>range</source>
      <translation>rango</translation>
    </message>
    <message>
      <source>range not covered</source>
      <translation>rango sin cubrir</translation>
    </message>
    <message>
      <source>rate</source>
      <translation>frecuencia</translation>
    </message>
    <message>
      <source>rate of force</source>
      <translation>velocidad de fuerza</translation>
    </message>
    <message>
      <source>rated peak</source>
      <translation>pico nominal</translation>
    </message>
    <message>
      <source>raw, thin</source>
      <translation>sin filtro, fina</translation>
    </message>
    <message>
      <source>reaches below 0.</source>
      <translation>llega por debajo de 0.</translation>
    </message>
    <message>
      <source>reaches it</source>
      <translation>la alcanza</translation>
    </message>
    <message>
      <source>read-only file system</source>
      <translation>sistema de archivos de solo lectura</translation>
    </message>
    <message>
      <source>reason</source>
      <translation>motivo</translation>
    </message>
    <message>
      <source>rebuilt</source>
      <translation>reconstruido</translation>
    </message>
    <message>
      <source>recorded</source>
      <translation>se graba</translation>
    </message>
    <message>
      <source>recorded from {adc} board {serial_number}</source>
      <translation>grabado de la placa {adc} {serial_number}</translation>
    </message>
    <message>
      <source>reference</source>
      <translation>referencia</translation>
    </message>
    <message>
      <source>reference cell</source>
      <translation>célula de referencia</translation>
    </message>
    <message>
      <source>reference, dotted</source>
      <translation>referencia, de puntos</translation>
    </message>
    <message>
      <source>refused</source>
      <translation>rechazado</translation>
    </message>
    <message>
      <source>regained</source>
      <translation>recuperado</translation>
    </message>
    <message>
      <source>release</source>
      <translation>soltar</translation>
    </message>
    <message>
      <source>remark</source>
      <translation>observación</translation>
    </message>
    <message>
      <source>rep</source>
      <translation>rep.</translation>
    </message>
    <message>
      <source>rep not done as meant, or weak effort</source>
      <translation>repetición no hecha como se pedía, o poco esfuerzo</translation>
    </message>
    <message>
      <source>rep repeated</source>
      <translation>repetición repetida</translation>
    </message>
    <message>
      <source>rep skipped</source>
      <translation>repetición omitida</translation>
    </message>
    <message>
      <source>rep {number} is not in this recording.</source>
      <translation>la repetición {number} no está en esta grabación.</translation>
    </message>
    <message>
      <source>repeatability over {runs} runs, net of zero</source>
      <translation>repetibilidad en {runs} vueltas, descontado el cero</translation>
    </message>
    <message>
      <source>repeatability: not known, fewer than two runs</source>
      <translation>repetibilidad: no se sabe, menos de dos vueltas</translation>
    </message>
    <message>
      <source>reported</source>
      <translation>informe</translation>
    </message>
    <message>
      <source>reps</source>
      <translation>repeticiones</translation>
    </message>
    <message>
      <source>reps not complete: {n}</source>
      <translation>repeticiones incompletas: {n}</translation>
    </message>
    <message>
      <source>residual standard deviation {sd:.4g} counts, {df} degrees of freedom</source>
      <translation>desviación típica residual {sd:.4g} cuentas, {df} grados de libertad</translation>
    </message>
    <message>
      <source>resolution</source>
      <translation>resolución</translation>
    </message>
    <message>
      <source>rest</source>
      <translation>descanso</translation>
    </message>
    <message>
      <source>rest taken</source>
      <translation>descanso tomado</translation>
    </message>
    <message>
      <source>restored</source>
      <translation>restaurado</translation>
    </message>
    <message>
      <source>reversed</source>
      <translation>invertida</translation>
    </message>
    <message>
      <source>reversed polarity</source>
      <translation>polaridad invertida</translation>
    </message>
    <message>
      <source>rig not checked</source>
      <translation>equipo sin comprobar</translation>
    </message>
    <message>
      <source>right</source>
      <translation>derecha</translation>
    </message>
    <message>
      <source>right (%)</source>
      <translation>derecha (%)</translation>
    </message>
    <message>
      <source>right share</source>
      <translation>parte derecha</translation>
    </message>
    <message>
      <source>right side</source>
      <translation>lado derecho</translation>
    </message>
    <message>
      <source>right weaker</source>
      <translation>derecha más débil</translation>
    </message>
    <message>
      <source>right, then left</source>
      <translation>derecha, luego izquierda</translation>
    </message>
    <message>
      <source>ring</source>
      <translation>anillo</translation>
    </message>
    <message>
      <source>rise onset</source>
      <translation>inicio de subida</translation>
    </message>
    <message>
      <source>run</source>
      <translation>ronda</translation>
    </message>
    <message>
      <source>running</source>
      <translation>corrido</translation>
    </message>
    <message>
      <source>samples</source>
      <translation>muestras</translation>
    </message>
    <message>
      <source>saturated</source>
      <translation>saturadas</translation>
    </message>
    <message>
      <source>say who chooses the filter.</source>
      <translation>indique quién elige el filtro.</translation>
    </message>
    <message>
      <source>sealed</source>
      <translation>sellado</translation>
    </message>
    <message>
      <source>semicolon</source>
      <translation>punto y coma</translation>
    </message>
    <message>
      <source>sessions</source>
      <translation>sesiones</translation>
    </message>
    <message>
      <source>set begun</source>
      <translation>serie empezada</translation>
    </message>
    <message>
      <source>set by hand</source>
      <translation>fijado a mano</translation>
    </message>
    <message>
      <source>set here</source>
      <translation>fijado aquí</translation>
    </message>
    <message>
      <source>set {number}</source>
      <translation>serie {number}</translation>
    </message>
    <message>
      <source>set {number} of {of}</source>
      <translation>serie {number} de {of}</translation>
    </message>
    <message>
      <source>set-up changed</source>
      <translation>cambió la preparación</translation>
    </message>
    <message>
      <source>sets</source>
      <translation>series</translation>
    </message>
    <message>
      <source>sets not done: {n}</source>
      <translation>series no hechas: {n}</translation>
    </message>
    <message>
      <source>sets not whole: {n}</source>
      <translation>series incompletas: {n}</translation>
    </message>
    <message>
      <source>sets put in: {n}</source>
      <translation>series añadidas: {n}</translation>
    </message>
    <message>
      <source>shared</source>
      <translation>compartida</translation>
    </message>
    <message>
      <source>short</source>
      <translation>corta</translation>
    </message>
    <message>
      <source>shoulder</source>
      <translation>hombro</translation>
    </message>
    <message>
      <source>shown force</source>
      <translation>fuerza mostrada</translation>
    </message>
    <message>
      <source>shown, dashed</source>
      <translation>mostrada, discontinua</translation>
    </message>
    <message>
      <source>shown, solid</source>
      <translation>mostrada, continua</translation>
    </message>
    <message>
      <source>side</source>
      <translation>lado</translation>
    </message>
    <message>
      <source>signal</source>
      <translation>señal</translation>
    </message>
    <message>
      <source>silent</source>
      <translation>en silencio</translation>
    </message>
    <message>
      <source>silent: no samples come</source>
      <translation>en silencio: no llegan muestras</translation>
    </message>
    <message>
      <source>simulated rig</source>
      <translation>equipo simulado</translation>
    </message>
    <message>
      <source>single</source>
      <translation>única</translation>
    </message>
    <message>
      <source>sitting, elbow at the side and bent to 90°</source>
      <translation>posición sentada, codo al costado y doblado a 90°</translation>
    </message>
    <message>
      <source>sitting, knee bent to 90°, ball of the foot on the plate</source>
      <translation>posición sentada, rodilla doblada a 90°, antepié en la placa</translation>
    </message>
    <message>
      <source>sitting, pelvis and thigh strapped</source>
      <translation>posición sentada, pelvis y muslo sujetos con correas</translation>
    </message>
    <message>
      <source>skipped</source>
      <translation>omitida</translation>
    </message>
    <message>
      <source>slope</source>
      <translation>pendiente de fuerza</translation>
    </message>
    <message>
      <source>snapshots of the disk, and what a solid-state disk keeps of deleted files</source>
      <translation>instantáneas del disco, y lo que un disco de estado sólido guarda de archivos borrados</translation>
    </message>
    <message>
      <source>source failed</source>
      <translation>la fuente falló</translation>
    </message>
    <message>
      <source>spectrum</source>
      <translation>espectro</translation>
    </message>
    <message>
      <source>spread</source>
      <translation>dispersión</translation>
    </message>
    <message>
      <source>stage {number}</source>
      <translation>etapa {number}</translation>
    </message>
    <message>
      <source>stage {number}, taken out since</source>
      <translation>etapa {number}, quitada después</translation>
    </message>
    <message>
      <source>stage “{stage}”</source>
      <translation>etapa «{stage}»</translation>
    </message>
    <message>
      <source>stale</source>
      <translation>detenida</translation>
    </message>
    <message>
      <source>stale: what comes is not the force of now</source>
      <translation>detenida: lo que llega no es la fuerza de ahora</translation>
    </message>
    <message>
      <source>standard gravity {m_s2:.5f} m/s² (no place given; off by up to {off_pct:.2f} %)</source>
      <translation>gravedad estándar {m_s2:.5f} m/s² (sin lugar; error de hasta {off_pct:.2f} %)</translation>
    </message>
    <message>
      <source>start</source>
      <translation>inicio</translation>
    </message>
    <message>
      <source>steep fall</source>
      <translation>caída brusca</translation>
    </message>
    <message>
      <source>still the high end</source>
      <translation>sigue el extremo alto</translation>
    </message>
    <message>
      <source>still the low end</source>
      <translation>sigue el extremo bajo</translation>
    </message>
    <message>
      <source>stopped</source>
      <translation>detenida</translation>
    </message>
    <message>
      <source>stopped at the desk</source>
      <translation>detenida en la mesa</translation>
    </message>
    <message>
      <source>stopped for pain</source>
      <translation>detenida por dolor</translation>
    </message>
    <message>
      <source>stopped, counts</source>
      <translation>detenido, cuenta</translation>
    </message>
    <message>
      <source>stopped, not counted</source>
      <translation>detenido, no cuenta</translation>
    </message>
    <message>
      <source>strap above the heel</source>
      <translation>correa sobre el talón</translation>
    </message>
    <message>
      <source>straps above both ankles</source>
      <translation>correas sobre ambos tobillos</translation>
    </message>
    <message>
      <source>stream {stream} changes its number of channels.</source>
      <translation>el flujo {stream} cambia su número de canales.</translation>
    </message>
    <message>
      <source>stronger today</source>
      <translation>más fuerte hoy</translation>
    </message>
    <message>
      <source>surely inside</source>
      <translation>seguro dentro</translation>
    </message>
    <message>
      <source>surely outside</source>
      <translation>seguro fuera</translation>
    </message>
    <message>
      <source>swapped</source>
      <translation>cambiadas</translation>
    </message>
    <message>
      <source>swapped channels</source>
      <translation>canales cambiados</translation>
    </message>
    <message>
      <source>symmetry formula</source>
      <translation>fórmula de simetría</translation>
    </message>
    <message>
      <source>symmetry index</source>
      <translation>índice de simetría</translation>
    </message>
    <message>
      <source>tab</source>
      <translation>tabulador</translation>
    </message>
    <message>
      <source>table {table}, row {row}: what stands in {column} is no proper value ({error}).</source>
      <translation>tabla {table}, fila {row}: lo que hay en {column} no es un valor correcto ({error}).</translation>
    </message>
    <message>
      <source>taken back</source>
      <translation>retirado</translation>
    </message>
    <message>
      <source>task</source>
      <translation>tarea</translation>
    </message>
    <message>
      <source>task {key}</source>
      <translation>tarea {key}</translation>
    </message>
    <message>
      <source>terminal line, no load to largest load</source>
      <translation>recta terminal, de sin carga a la carga mayor</translation>
    </message>
    <message>
      <source>the athlete's code is empty.</source>
      <translation>el código del atleta está vacío.</translation>
    </message>
    <message>
      <source>the backup cannot be copied here ({reason}).</source>
      <translation>la copia no se puede traer aquí ({reason}).</translation>
    </message>
    <message>
      <source>the backup cannot be written ({reason}).</source>
      <translation>no se puede escribir la copia de seguridad ({reason}).</translation>
    </message>
    <message>
      <source>the backup {place}, last known on {day}: it is not here now and still holds whoever was in it. Bring its disk, then erase again</source>
      <translation>la copia de seguridad {place}, última noticia del {day}: ahora no está aquí y conserva a quien estuviera en ella. Traiga su disco y borre de nuevo</translation>
    </message>
    <message>
      <source>the band is for each side</source>
      <translation>la banda es para cada lado</translation>
    </message>
    <message>
      <source>the cell</source>
      <translation>la célula</translation>
    </message>
    <message>
      <source>the cell “{name}”</source>
      <translation>la célula «{name}»</translation>
    </message>
    <message>
      <source>the change is</source>
      <translation>el cambio es</translation>
    </message>
    <message>
      <source>the club's</source>
      <translation>del club</translation>
    </message>
    <message>
      <source>the disk does not read or write as it should.</source>
      <translation>el disco no lee o no escribe como debería.</translation>
    </message>
    <message>
      <source>the disk gives back something else than was written.</source>
      <translation>el disco devuelve algo distinto de lo escrito.</translation>
    </message>
    <message>
      <source>the disk is full.</source>
      <translation>el disco está lleno.</translation>
    </message>
    <message>
      <source>the export cannot be {what} ({reason}).</source>
      <translation>la exportación no se puede {what} ({reason}).</translation>
    </message>
    <message>
      <source>the export {place}</source>
      <translation>la exportación {place}</translation>
    </message>
    <message>
      <source>the file cannot be deleted ({reason}).</source>
      <translation>no se puede borrar el archivo ({reason}).</translation>
    </message>
    <message>
      <source>the file cannot be made ({reason}).</source>
      <translation>no se puede crear el archivo ({reason}).</translation>
    </message>
    <message>
      <source>the file cannot be read ({reason}).</source>
      <translation>no se puede leer el archivo ({reason}).</translation>
    </message>
    <message>
      <source>the file cannot be written ({reason}).</source>
      <translation>no se puede escribir el archivo ({reason}).</translation>
    </message>
    <message>
      <source>the first ever of somebody, which is practice</source>
      <translation>el primero de alguien, que es práctica</translation>
    </message>
    <message>
      <source>the folder cannot be read ({reason})</source>
      <translation>no se puede leer la carpeta ({reason})</translation>
    </message>
    <message>
      <source>the folder cannot be read ({reason}).</source>
      <translation>no se puede leer la carpeta ({reason}).</translation>
    </message>
    <message>
      <source>the force was never held in the band for {hold_least_s:g} s.</source>
      <translation>la fuerza nunca se mantuvo en la banda {hold_least_s:g} s.</translation>
    </message>
    <message>
      <source>the force was never let go</source>
      <translation>la fuerza nunca se soltó</translation>
    </message>
    <message>
      <source>the history of filters cannot be used: {reason}.</source>
      <translation>no se puede usar el historial de filtros: {reason}.</translation>
    </message>
    <message>
      <source>the key file cannot be read ({reason}).</source>
      <translation>no se puede leer el archivo de clave ({reason}).</translation>
    </message>
    <message>
      <source>the key file cannot be written ({reason}).</source>
      <translation>no se puede escribir el archivo de clave ({reason}).</translation>
    </message>
    <message>
      <source>the known forces are uncertain by {applied_pct:.2g} % (k = 2), more than a third of {q:g} %</source>
      <translation>las fuerzas conocidas tienen una incertidumbre de {applied_pct:.2g} % (k = 2), más de un tercio de {q:g} %</translation>
    </message>
    <message>
      <source>the known forces are uncertain by {applied_pct:.2g} % (k = 2), the class allows {applied:g} %</source>
      <translation>las fuerzas conocidas tienen una incertidumbre de {applied_pct:.2g} % (k = 2); la clase permite {applied:g} %</translation>
    </message>
    <message>
      <source>the largest load is outside the limits</source>
      <translation>la carga mayor está fuera de los límites</translation>
    </message>
    <message>
      <source>the last three months</source>
      <translation>3 meses</translation>
    </message>
    <message>
      <source>the last year</source>
      <translation>1 año</translation>
    </message>
    <message>
      <source>the last zero</source>
      <translation>el último cero</translation>
    </message>
    <message>
      <source>the log cannot be cleaned ({reason}).</source>
      <translation>no se puede limpiar el diario ({reason}).</translation>
    </message>
    <message>
      <source>the logbook cannot be made ({reason}).</source>
      <translation>no se puede crear el registro ({reason}).</translation>
    </message>
    <message>
      <source>the logbook cannot be opened.</source>
      <translation>no se puede abrir el registro.</translation>
    </message>
    <message>
      <source>the logbook cannot be read ({reason}).</source>
      <translation>no se puede leer el registro ({reason}).</translation>
    </message>
    <message>
      <source>the logbook does not answer as it should ({fault}).</source>
      <translation>el registro no responde como debería ({fault}).</translation>
    </message>
    <message>
      <source>the logbook is damaged.</source>
      <translation>el registro está dañado.</translation>
    </message>
    <message>
      <source>the logbook is sealed, and this file with its key is not here.</source>
      <translation>el registro está cifrado, y este archivo con su clave no está aquí.</translation>
    </message>
    <message>
      <source>the logbook may only be read here, not written.</source>
      <translation>aquí el registro solo se puede leer, no escribir.</translation>
    </message>
    <message>
      <source>the manifest cannot be read ({reason}).</source>
      <translation>no se puede leer el manifiesto ({reason}).</translation>
    </message>
    <message>
      <source>the morning after</source>
      <translation>la mañana siguiente</translation>
    </message>
    <message>
      <source>the morning after the last session</source>
      <translation>la mañana tras la última sesión</translation>
    </message>
    <message>
      <source>the name, which somebody who stays has too: only the code was looked for</source>
      <translation>el nombre, que tiene también alguien que se queda: solo se buscó el código</translation>
    </message>
    <message>
      <source>the other side ({other})</source>
      <translation>el otro lado ({other})</translation>
    </message>
    <message>
      <source>the partner was not tested with these sides</source>
      <translation>la pareja no se probó con estos lados</translation>
    </message>
    <message>
      <source>the passphrase of this key file was not given yet.</source>
      <translation>todavía no se ha dado la frase de contraseña de este archivo de clave.</translation>
    </message>
    <message>
      <source>the picture cannot be written.</source>
      <translation>no se puede escribir la imagen.</translation>
    </message>
    <message>
      <source>the preferences cannot be kept: {reason}.</source>
      <translation>no se pueden guardar las preferencias: {reason}.</translation>
    </message>
    <message>
      <source>the quadratic term, against the residuals it leaves, has F = {f:.4g} (1 and {residual_df} degrees of freedom, p = {p_value:.2g})</source>
      <translation>el término cuadrático, frente a los residuos que deja, tiene F = {f:.4g} (1 y {residual_df} grados de libertad, p = {p_value:.2g})</translation>
    </message>
    <message>
      <source>the recording cannot be written anew ({reason}).</source>
      <translation>no se puede volver a escribir la grabación ({reason}).</translation>
    </message>
    <message>
      <source>the recording was cut off before its end</source>
      <translation>la grabación se cortó antes de su final</translation>
    </message>
    <message>
      <source>the recording was cut off before its end, {count} bytes into a frame</source>
      <translation>la grabación se cortó antes de su final, {count} bytes dentro de una trama</translation>
    </message>
    <message>
      <source>the report {place}: it is not there now</source>
      <translation>el informe {place}: ahora no está allí</translation>
    </message>
    <message>
      <source>the table is empty.</source>
      <translation>la tabla está vacía.</translation>
    </message>
    <message>
      <source>the task names no isometric partner</source>
      <translation>la tarea no nombra pareja isométrica</translation>
    </message>
    <message>
      <source>the time unit gives a sample rate of {rate_hz:g} Hz.</source>
      <translation>la unidad de tiempo da una frecuencia de {rate_hz:g} Hz.</translation>
    </message>
    <message>
      <source>the unit makes the largest force {largest:.3g} N.</source>
      <translation>la unidad hace que la fuerza mayor sea {largest:.3g} N.</translation>
    </message>
    <message>
      <source>the visit was ended</source>
      <translation>se terminó la visita</translation>
    </message>
    <message>
      <source>the weaker side of a test with both</source>
      <translation>el lado más débil de una prueba con ambos</translation>
    </message>
    <message>
      <source>the window was closed</source>
      <translation>se cerró la ventana</translation>
    </message>
    <message>
      <source>the {name} cell</source>
      <translation>la célula {name}</translation>
    </message>
    <message>
      <source>the {sides} side</source>
      <translation>el lado {sides}</translation>
    </message>
    <message>
      <source>the {side} cell</source>
      <translation>la célula {side}</translation>
    </message>
    <message>
      <source>there are fewer than two rows with numbers in it.</source>
      <translation>tiene menos de dos filas con números.</translation>
    </message>
    <message>
      <source>there are more cells than the {width} columns of the first row.</source>
      <translation>hay más celdas que las {width} columnas de la primera fila.</translation>
    </message>
    <message>
      <source>there are more than {people_max} rows; this is no table of people.</source>
      <translation>hay más de {people_max} filas; esto no es una tabla de personas.</translation>
    </message>
    <message>
      <source>there are names of columns and no points.</source>
      <translation>hay nombres de columnas y ningún punto.</translation>
    </message>
    <message>
      <source>there are names of columns and no rows.</source>
      <translation>hay nombres de columnas y ninguna fila.</translation>
    </message>
    <message>
      <source>there are two columns “{known}”.</source>
      <translation>hay dos columnas «{known}».</translation>
    </message>
    <message>
      <source>there are {count} columns; {columns} are needed.</source>
      <translation>hay {count} columnas; hacen falta {columns}.</translation>
    </message>
    <message>
      <source>there are {trials} trials; {trials_max} at most.</source>
      <translation>hay {trials} intentos; {trials_max} como máximo.</translation>
    </message>
    <message>
      <source>there is 1 column; {columns} are needed.</source>
      <translation>hay 1 columna; hacen falta {columns}.</translation>
    </message>
    <message>
      <source>there is no athlete {athlete_id}.</source>
      <translation>no hay atleta {athlete_id}.</translation>
    </message>
    <message>
      <source>there is no athlete {code}.</source>
      <translation>no hay atleta {code}.</translation>
    </message>
    <message>
      <source>there is no athlete {key}.</source>
      <translation>no hay atleta {key}.</translation>
    </message>
    <message>
      <source>there is no athlete “{code}” in the logbook.</source>
      <translation>no hay atleta «{code}» en el registro.</translation>
    </message>
    <message>
      <source>there is no column “{column}”; there are {cells}: {listed}.</source>
      <translation>no hay columna «{column}»; hay {cells}: {listed}.</translation>
    </message>
    <message>
      <source>there is no effort {number}.</source>
      <translation>no hay esfuerzo {number}.</translation>
    </message>
    <message>
      <source>there is no entry {key}.</source>
      <translation>no hay entrada {key}.</translation>
    </message>
    <message>
      <source>there is no file in this folder</source>
      <translation>no hay ningún archivo en esta carpeta</translation>
    </message>
    <message>
      <source>there is no pair {first}, {second}.</source>
      <translation>no hay par {first}, {second}.</translation>
    </message>
    <message>
      <source>there is no plan {key}.</source>
      <translation>no hay plan {key}.</translation>
    </message>
    <message>
      <source>there is no rep {rep_id}.</source>
      <translation>no hay repetición {rep_id}.</translation>
    </message>
    <message>
      <source>there is no report {report_id}.</source>
      <translation>no hay informe {report_id}.</translation>
    </message>
    <message>
      <source>there is no sample in this recording.</source>
      <translation>no hay ninguna muestra en esta grabación.</translation>
    </message>
    <message>
      <source>there is no score in the table.</source>
      <translation>no hay ningún valor en la tabla.</translation>
    </message>
    <message>
      <source>there is no session {session_id}.</source>
      <translation>no hay sesión {session_id}.</translation>
    </message>
    <message>
      <source>there is no set of a task “{name}”.</source>
      <translation>no hay ninguna serie de una tarea «{name}».</translation>
    </message>
    <message>
      <source>there is no set to come that could be changed.</source>
      <translation>no hay serie pendiente que cambiar.</translation>
    </message>
    <message>
      <source>there is no set {set_id}.</source>
      <translation>no hay serie {set_id}.</translation>
    </message>
    <message>
      <source>there is no such stage to move to.</source>
      <translation>no hay tal etapa a la que pasar.</translation>
    </message>
    <message>
      <source>there is no task {key}.</source>
      <translation>no hay tarea {key}.</translation>
    </message>
    <message>
      <source>there is no trial {number} to take out.</source>
      <translation>no hay intento {number} que quitar.</translation>
    </message>
    <message>
      <source>there is no user of this name here.</source>
      <translation>aquí no hay ningún usuario con ese nombre.</translation>
    </message>
    <message>
      <source>there is no visit {session_id}.</source>
      <translation>no hay visita {session_id}.</translation>
    </message>
    <message>
      <source>there is none.</source>
      <translation>no hay ninguna.</translation>
    </message>
    <message>
      <source>there is one column of scores; two trials are needed.</source>
      <translation>hay una columna de resultados; hacen falta dos intentos.</translation>
    </message>
    <message>
      <source>there is one row; two people are needed.</source>
      <translation>hay una fila; hacen falta dos personas.</translation>
    </message>
    <message>
      <source>there must be one of the columns force_n and mass_kg.</source>
      <translation>debe haber una de las columnas force_n y mass_kg.</translation>
    </message>
    <message>
      <source>this athlete is not in the logbook any more.</source>
      <translation>este atleta ya no está en el registro.</translation>
    </message>
    <message>
      <source>this athlete's 1 visit</source>
      <translation>1 visita de este atleta</translation>
    </message>
    <message>
      <source>this athlete's {count} visits</source>
      <translation>{count} visitas de este atleta</translation>
    </message>
    <message>
      <source>this backup holds no logbook.</source>
      <translation>esta copia no contiene ningún registro.</translation>
    </message>
    <message>
      <source>this backup is not whole: {listed}{more}.</source>
      <translation>esta copia no está entera: {listed}{more}.</translation>
    </message>
    <message>
      <source>this backup was made by a newer version of the program.</source>
      <translation>esta copia la hizo una versión más nueva del programa.</translation>
    </message>
    <message>
      <source>this board has none, so no filter can be kept for it.</source>
      <translation>esta placa no lo tiene, así que no se le puede guardar un filtro.</translation>
    </message>
    <message>
      <source>this cannot be moved ({reason}).</source>
      <translation>esto no se puede mover ({reason}).</translation>
    </message>
    <message>
      <source>this code stands in line {seen} already.</source>
      <translation>este código ya está en la línea {seen}.</translation>
    </message>
    <message>
      <source>this database cannot be reached from here ({error}).</source>
      <translation>a esta base de datos no se llega desde aquí ({error}).</translation>
    </message>
    <message>
      <source>this file is there already.</source>
      <translation>este archivo ya existe.</translation>
    </message>
    <message>
      <source>this folder cannot be looked into ({reason}).</source>
      <translation>no se puede mirar dentro de esta carpeta ({reason}).</translation>
    </message>
    <message>
      <source>this folder cannot be made ({reason}).</source>
      <translation>no se puede crear esta carpeta ({reason}).</translation>
    </message>
    <message>
      <source>this folder holds something else.</source>
      <translation>esta carpeta contiene otra cosa.</translation>
    </message>
    <message>
      <source>this folder is not empty.</source>
      <translation>esta carpeta no está vacía.</translation>
    </message>
    <message>
      <source>this is a file, and an export is a folder.</source>
      <translation>esto es un archivo, y una exportación es una carpeta.</translation>
    </message>
    <message>
      <source>this is a link.</source>
      <translation>esto es un enlace.</translation>
    </message>
    <message>
      <source>this is a sealed recording whose beginning is cut off or damaged; without it nothing in it can be opened.</source>
      <translation>esto es una grabación cifrada cuyo comienzo falta o está dañado; sin él no se puede abrir nada de ella.</translation>
    </message>
    <message>
      <source>this is no file on a disk.</source>
      <translation>esto no es un archivo en un disco.</translation>
    </message>
    <message>
      <source>this is no note of recordings that are elsewhere.</source>
      <translation>esto no es una lista de grabaciones que están en otro lugar.</translation>
    </message>
    <message>
      <source>this is no table of points.</source>
      <translation>esto no es una tabla de puntos.</translation>
    </message>
    <message>
      <source>this is not a backup: it has no manifest.</source>
      <translation>esto no es una copia de seguridad: no tiene manifiesto.</translation>
    </message>
    <message>
      <source>this is not a key file, or it is damaged: {error}</source>
      <translation>esto no es un archivo de clave, o está dañado: {error}</translation>
    </message>
    <message>
      <source>this is not a logbook; it is a file of another kind.</source>
      <translation>esto no es un registro; es un archivo de otro tipo.</translation>
    </message>
    <message>
      <source>this is not a recording but a “{name}”.</source>
      <translation>esto no es una grabación sino «{name}».</translation>
    </message>
    <message>
      <source>this is not a recording, or its header is damaged; without it counts cannot be turned into newtons.</source>
      <translation>esto no es una grabación, o su cabecera está dañada; sin ella las cuentas no se pueden convertir en newtons.</translation>
    </message>
    <message>
      <source>this is not a recording: it begins with a frame of kind {kind}.</source>
      <translation>esto no es una grabación: empieza con una trama de tipo {kind}.</translation>
    </message>
    <message>
      <source>this is not a recording: there is not one whole frame in it.</source>
      <translation>esto no es una grabación: no contiene ni una trama entera.</translation>
    </message>
    <message>
      <source>this is not a recording: {error}</source>
      <translation>esto no es una grabación: {error}</translation>
    </message>
    <message>
      <source>this is not a text file, or not in UTF-8.</source>
      <translation>esto no es un archivo de texto, o no está en UTF-8.</translation>
    </message>
    <message>
      <source>this is not the URL of a database.</source>
      <translation>esto no es la URL de una base de datos.</translation>
    </message>
    <message>
      <source>this is not the manifest of a backup: {error}</source>
      <translation>esto no es el manifiesto de una copia de seguridad: {error}</translation>
    </message>
    <message>
      <source>this is sealed, and the file with its key ({key_id}) is not here.</source>
      <translation>esto está cifrado, y el archivo con su clave ({key_id}) no está aquí.</translation>
    </message>
    <message>
      <source>this is the database of another program.</source>
      <translation>esta es la base de datos de otro programa.</translation>
    </message>
    <message>
      <source>this is the recording of another set.</source>
      <translation>esta es la grabación de otra serie.</translation>
    </message>
    <message>
      <source>this key file belongs to another logbook: the one here is sealed by the key {key_id}.</source>
      <translation>este archivo de clave es de otro registro: el de aquí está cifrado con la clave {key_id}.</translation>
    </message>
    <message>
      <source>this key file was written by a newer version of the program.</source>
      <translation>este archivo de clave lo escribió una versión más nueva del programa.</translation>
    </message>
    <message>
      <source>this line is too short.</source>
      <translation>esta línea es demasiado corta.</translation>
    </message>
    <message>
      <source>this link leads nowhere.</source>
      <translation>este enlace no lleva a ninguna parte.</translation>
    </message>
    <message>
      <source>this logbook was written by a newer version of the program (its tables are of version {found}, known here is {schema_revision}).</source>
      <translation>este registro lo escribió una versión más nueva del programa (sus tablas son de la versión {found}; aquí se conoce la {schema_revision}).</translation>
    </message>
    <message>
      <source>this logbook was written by a newer version of the program.</source>
      <translation>este registro lo escribió una versión más nueva del programa.</translation>
    </message>
    <message>
      <source>this path leads nowhere.</source>
      <translation>esta ruta no lleva a ninguna parte.</translation>
    </message>
    <message>
      <source>this recording is of format {major}.{minor}, made by a newer version of the program; known here is {major_2}.{minor_2}.</source>
      <translation>esta grabación es del formato {major}.{minor}, hecha por una versión más nueva del programa; aquí se conoce {major_2}.{minor_2}.</translation>
    </message>
    <message>
      <source>this recording was made without one.</source>
      <translation>esta grabación se hizo sin ella.</translation>
    </message>
    <message>
      <source>this recording was sealed by a newer version of the program.</source>
      <translation>esta grabación la cifró una versión más nueva del programa.</translation>
    </message>
    <message>
      <source>this rep is not void.</source>
      <translation>esta repetición no es nula.</translation>
    </message>
    <message>
      <source>this sealed recording is damaged; a part of it does not open.</source>
      <translation>esta grabación cifrada está dañada; una parte no se abre.</translation>
    </message>
    <message>
      <source>this set is here twice.</source>
      <translation>esta serie está dos veces.</translation>
    </message>
    <message>
      <source>this stage of the plan has no set.</source>
      <translation>esta etapa del plan no tiene ninguna serie.</translation>
    </message>
    <message>
      <source>this task is not in the logbook any more.</source>
      <translation>esta tarea ya no está en el registro.</translation>
    </message>
    <message>
      <source>time</source>
      <translation>tiempo</translation>
    </message>
    <message>
      <source>time jumps by {step_s:.0f} s, more than a day.</source>
      <translation>el tiempo salta {step_s:.0f} s, más de un día.</translation>
    </message>
    <message>
      <source>time since the set began (s)</source>
      <translation>tiempo desde el inicio de la serie (s)</translation>
    </message>
    <message>
      <source>time to enter</source>
      <translation>tiempo de entrada</translation>
    </message>
    <message>
      <source>times</source>
      <translation>tiempos</translation>
    </message>
    <message>
      <source>times the weight</source>
      <translation>veces el peso</translation>
    </message>
    <message>
      <source>to</source>
      <translation>hasta</translation>
    </message>
    <message>
      <source>to come</source>
      <translation>pendiente</translation>
    </message>
    <message>
      <source>to week</source>
      <translation>hasta la semana</translation>
    </message>
    <message>
      <source>too few loads</source>
      <translation>muy pocas cargas</translation>
    </message>
    <message>
      <source>total</source>
      <translation>total</translation>
    </message>
    <message>
      <source>touch</source>
      <translation>toque</translation>
    </message>
    <message>
      <source>training</source>
      <translation>entrenamiento</translation>
    </message>
    <message>
      <source>trial</source>
      <translation>intento</translation>
    </message>
    <message>
      <source>trial of a test</source>
      <translation>intento de una prueba</translation>
    </message>
    <message>
      <source>trial peak</source>
      <translation>pico del intento</translation>
    </message>
    <message>
      <source>trial {number} of the test</source>
      <translation>intento {number} de la prueba</translation>
    </message>
    <message>
      <source>trial {n}</source>
      <translation>intento {n}</translation>
    </message>
    <message>
      <source>triangle that points down</source>
      <translation>triángulo hacia abajo</translation>
    </message>
    <message>
      <source>triangle that points up</source>
      <translation>triángulo hacia arriba</translation>
    </message>
    <message>
      <source>trunk</source>
      <translation>tronco</translation>
    </message>
    <message>
      <source>two have the same name.</source>
      <translation>dos tienen el mismo nombre.</translation>
    </message>
    <message>
      <source>typed number</source>
      <translation>número escrito</translation>
    </message>
    <message>
      <source>typical error</source>
      <translation>error típico</translation>
    </message>
    <message>
      <source>unbalanced</source>
      <translation>sin equilibrio</translation>
    </message>
    <message>
      <source>unbroken</source>
      <translation>sin cortes</translation>
    </message>
    <message>
      <source>unbroken: starts again after a lapse
banked: adds up all time in the band
running: counts on from the first entry</source>
      <translation>sin cortes: vuelve a empezar tras una salida
acumulado: suma todo el tiempo en la banda
corrido: sigue contando desde la primera entrada</translation>
    </message>
    <message>
      <source>under 0.1 N</source>
      <translation>menos de 0,1 N</translation>
    </message>
    <message>
      <source>under way</source>
      <translation>en curso</translation>
    </message>
    <message>
      <source>undone</source>
      <translation>deshecho</translation>
    </message>
    <message>
      <source>unit</source>
      <translation>unidad</translation>
    </message>
    <message>
      <source>unsealed</source>
      <translation>sello quitado</translation>
    </message>
    <message>
      <source>unseen</source>
      <translation>sin ver</translation>
    </message>
    <message>
      <source>up</source>
      <translation>subiendo</translation>
    </message>
    <message>
      <source>upper limit</source>
      <translation>límite superior</translation>
    </message>
    <message>
      <source>value</source>
      <translation>valor</translation>
    </message>
    <message>
      <source>visit {number}</source>
      <translation>visita {number}</translation>
    </message>
    <message>
      <source>void</source>
      <translation>nula</translation>
    </message>
    <message>
      <source>void: {n}</source>
      <translation>nulas: {n}</translation>
    </message>
    <message>
      <source>void: {reason}</source>
      <translation>nula: {reason}</translation>
    </message>
    <message>
      <source>voided</source>
      <translation>anulado</translation>
    </message>
    <message>
      <source>waiting for the signal</source>
      <translation>esperando la señal</translation>
    </message>
    <message>
      <source>waits</source>
      <translation>esperas</translation>
    </message>
    <message>
      <source>warm-up</source>
      <translation>calentamiento</translation>
    </message>
    <message>
      <source>warm-up first</source>
      <translation>primero calentar</translation>
    </message>
    <message>
      <source>warm-up set {number}</source>
      <translation>serie de calentamiento {number}</translation>
    </message>
    <message>
      <source>warning</source>
      <translation>aviso</translation>
    </message>
    <message>
      <source>was refused and is not kept.</source>
      <translation>fue rechazada y no se guarda.</translation>
    </message>
    <message>
      <source>way</source>
      <translation>sentido</translation>
    </message>
    <message>
      <source>weaker today</source>
      <translation>más débil hoy</translation>
    </message>
    <message>
      <source>week</source>
      <translation>semana</translation>
    </message>
    <message>
      <source>weeks</source>
      <translation>semanas</translation>
    </message>
    <message>
      <source>weighed on</source>
      <translation>pesado el</translation>
    </message>
    <message>
      <source>well within</source>
      <translation>con holgura</translation>
    </message>
    <message>
      <source>what</source>
      <translation>qué</translation>
    </message>
    <message>
      <source>what was written is not what was read.</source>
      <translation>lo que se escribió no es lo que se leyó.</translation>
    </message>
    <message>
      <source>where</source>
      <translation>dónde</translation>
    </message>
    <message>
      <source>where the line may cross zero (95 %)</source>
      <translation>donde la recta puede cruzar el cero (95 %)</translation>
    </message>
    <message>
      <source>which of its columns are forces is not to be seen.</source>
      <translation>no se ve cuáles de sus columnas son fuerzas.</translation>
    </message>
    <message>
      <source>with names</source>
      <translation>con nombres</translation>
    </message>
    <message>
      <source>within noise of ± {n} N</source>
      <translation>dentro del ruido de ± {n} N</translation>
    </message>
    <message>
      <source>within the noise</source>
      <translation>dentro del ruido</translation>
    </message>
    <message>
      <source>within {noise_pct:.1f} % one visit may be noise alone (95 %)</source>
      <translation>dentro de {noise_pct:.1f} % una visita puede ser solo ruido (95 %)</translation>
    </message>
    <message>
      <source>within {within}, a band of ± {band}</source>
      <translation>dentro de {within}, una banda de ± {band}</translation>
    </message>
    <message>
      <source>without a date</source>
      <translation>sin fecha</translation>
    </message>
    <message>
      <source>without a reference</source>
      <translation>sin referencia</translation>
    </message>
    <message>
      <source>without a result by this definition</source>
      <translation>sin resultado según esta definición</translation>
    </message>
    <message>
      <source>without names</source>
      <translation>sin nombres</translation>
    </message>
    <message>
      <source>women</source>
      <translation>mujeres</translation>
    </message>
    <message>
      <source>would reach the ceiling of {n:g} N.</source>
      <translation>llegaría al techo de {n:g} N.</translation>
    </message>
    <message>
      <source>zero</source>
      <translation>cero</translation>
    </message>
    <message>
      <source>zero came back {zero_pct:.2g} % off, the class allows {limit_pct:g} %</source>
      <translation>el cero volvió con {zero_pct:.2g} % de diferencia; la clase permite {limit_pct:g} %</translation>
    </message>
    <message>
      <source>zero drift</source>
      <translation>deriva del cero</translation>
    </message>
    <message>
      <source>zero return</source>
      <translation>retorno a cero</translation>
    </message>
    <message>
      <source>{about}{cell} ({label}) is not used: it was made with {made}, and these counts come with {given}.</source>
      <translation>{about}{cell} ({label}) no se usa: se hizo con {made}, y estas cuentas vienen con {given}.</translation>
    </message>
    <message>
      <source>{about}{cell} ({label}) is {age_days} days old, more than {most_days:g}. Calibrate again when you can.</source>
      <translation>{about}{cell} ({label}) tiene {age_days} días, más de {most_days:g}. Calibrar de nuevo cuando se pueda.</translation>
    </message>
    <message>
      <source>{adc} board {serial_number}, firmware {version}</source>
      <translation>placa {adc} {serial_number}, firmware {version}</translation>
    </message>
    <message>
      <source>{adc} board {serial_number}, firmware {version}, gain {gain}</source>
      <translation>placa {adc} {serial_number}, firmware {version}, ganancia {gain}</translation>
    </message>
    <message>
      <source>{age_days} old</source>
      <translation>hace {age_days}</translation>
    </message>
    <message>
      <source>{at} of {adc}</source>
      <translation>{at} de {adc}</translation>
    </message>
    <message>
      <source>{bits} bits</source>
      <translation>{bits} bits</translation>
    </message>
    <message>
      <source>{by}, within the last {weeks}</source>
      <translation>{by}, en la última {weeks}</translation>
    </message>
    <message>
      <source>{cells} and {cell}</source>
      <translation>{cells} y {cell}</translation>
    </message>
    <message>
      <source>{cells} are</source>
      <translation>{cells} están</translation>
    </message>
    <message>
      <source>{cells} of </source>
      <translation>{cells} de </translation>
    </message>
    <message>
      <source>{cell} drifts: its rest force has walked the same way over {trend_reps} reps, as cells and boards do while they warm up. Give the rig some minutes, then take zero before the next set.</source>
      <translation>{cell} deriva: su fuerza en reposo se ha movido igual en {trend_reps} repeticiones, como hacen células y placas al calentarse. Dar unos minutos al equipo y tomar cero antes de la próxima serie.</translation>
    </message>
    <message>
      <source>{cell} gives one and the same number, which chance does not do. Stop, and look at its wiring and its converter.</source>
      <translation>{cell} da siempre el mismo número, cosa que el azar no hace. Parar y mirar su cableado y su convertidor.</translation>
    </message>
    <message>
      <source>{cell} is</source>
      <translation>{cell} está</translation>
    </message>
    <message>
      <source>{cell} is at its stop. Take the load off it and look at its wiring, then take zero again.</source>
      <translation>{cell} está en su tope. Quitar la carga y mirar su cableado, y tomar el cero de nuevo.</translation>
    </message>
    <message>
      <source>{cell} is at {near_rated_pct:g} % of its rated load of {rated_n:g} N or more. Ease off, and use a stronger cell for such forces.</source>
      <translation>{cell} está al {near_rated_pct:g} % o más de su carga nominal de {rated_n:g} N. Aflojar, y usar una célula más fuerte para tales fuerzas.</translation>
    </message>
    <message>
      <source>{cell} showed {force_n:+.1f} N at rest before this rep. If nothing rested on it, its zero has walked: take zero before the next set.</source>
      <translation>{cell} mostró {force_n:+.1f} N en reposo antes de esta repetición. Si nada se apoyaba, su cero se ha movido: tomar cero antes de la próxima serie.</translation>
    </message>
    <message>
      <source>{cell} showed {force_n:+.1f} N at rest before this trial. If nothing rested on it, its zero has walked: take zero before the next test.</source>
      <translation>{cell} mostró {force_n:+.1f} N en reposo antes de este intento. Si nada se apoyaba, su cero se ha movido: tomar cero antes de la próxima prueba.</translation>
    </message>
    <message>
      <source>{cell}: calibration “{label}” of {day}</source>
      <translation>{cell}: calibración «{label}» del {day}</translation>
    </message>
    <message>
      <source>{cell}: not calibrated (“{label}”); its newtons are a guess.</source>
      <translation>{cell}: sin calibrar («{label}»); sus newtons son una conjetura.</translation>
    </message>
    <message>
      <source>{change:+.0f} N</source>
      <translation>{change:+.0f} N</translation>
    </message>
    <message>
      <source>{codes} and {more} more</source>
      <translation>{codes} y {more} más</translation>
    </message>
    <message>
      <source>{codes} has this name too. Save again if it is another person.</source>
      <translation>{codes} tiene este nombre también. Guardar otra vez si es otra persona.</translation>
    </message>
    <message>
      <source>{code} is at the desk. Choose somebody else under Athletes first.</source>
      <translation>{code} está en la mesa. Elegir antes a otra persona en Atletas.</translation>
    </message>
    <message>
      <source>{code} is erased, also in copies: recordings {recordings}, rows {rows}, reports {reports}; backups cleared: {backups}.</source>
      <translation>{code} está borrado, también en las copias: grabaciones {recordings}, filas {rows}, informes {reports}; copias limpiadas: {backups}.</translation>
    </message>
    <message>
      <source>{code} is here now.</source>
      <translation>{code} está aquí ahora.</translation>
    </message>
    <message>
      <source>{code} is in use already</source>
      <translation>{code} ya está en uso</translation>
    </message>
    <message>
      <source>{code} is in use already, as {other}</source>
      <translation>{code} ya está en uso, como {other}</translation>
    </message>
    <message>
      <source>{code} is in use already.</source>
      <translation>{code} ya está en uso.</translation>
    </message>
    <message>
      <source>{complete} of {done}, {share_pct} %.</source>
      <translation>{complete} de {done}, {share_pct} %.</translation>
    </message>
    <message>
      <source>{count} blocks not drawn</source>
      <translation>{count} bloques sin dibujar</translation>
    </message>
    <message>
      <source>{count} channels</source>
      <translation>{count} canales</translation>
    </message>
    <message>
      <source>{count} column split by {separator}, {names}</source>
      <translation>{count} columna separada por {separator}, {names}</translation>
    </message>
    <message>
      <source>{count} columns split by {separator}, {names}</source>
      <translation>{count} columnas separadas por {separator}, {names}</translation>
    </message>
    <message>
      <source>{count} damaged frames ({size} bytes) could not be read</source>
      <translation>{count} tramas dañadas ({size} bytes) no se pudieron leer</translation>
    </message>
    <message>
      <source>{count} earlier changes are in the logbook.</source>
      <translation>{count} cambios anteriores están en el registro.</translation>
    </message>
    <message>
      <source>{count} earlier copies are not sealed, and whoever has them can read them: {places}.</source>
      <translation>{count} copias anteriores no están cifradas y quien las tenga puede leerlas: {places}.</translation>
    </message>
    <message>
      <source>{count} earlier copy is not sealed, and whoever has it can read it: {places}.</source>
      <translation>{count} copia anterior no está cifrada y quien la tenga puede leerla: {places}.</translation>
    </message>
    <message>
      <source>{count} lapses</source>
      <translation>{count} salidas</translation>
    </message>
    <message>
      <source>{count} not in the logbook yet, and tried again: {trouble}</source>
      <translation>{count} aún fuera del registro, y se intenta otra vez: {trouble}</translation>
    </message>
    <message>
      <source>{count} people</source>
      <translation>{count} personas</translation>
    </message>
    <message>
      <source>{count} recording is in the backup and not here any more.</source>
      <translation>{count} grabación está en la copia y ya no aquí.</translation>
    </message>
    <message>
      <source>{count} recording was taken out, as it was erased here since.</source>
      <translation>Se ha quitado {count} grabación, borrada aquí desde entonces.</translation>
    </message>
    <message>
      <source>{count} recordings are in the backup and not here any more.</source>
      <translation>{count} grabaciones están en la copia y ya no aquí.</translation>
    </message>
    <message>
      <source>{count} recordings were taken out, as they were erased here since.</source>
      <translation>Se han quitado {count} grabaciones, borradas aquí desde entonces.</translation>
    </message>
    <message>
      <source>{count} residuals</source>
      <translation>{count} residuos</translation>
    </message>
    <message>
      <source>{count} result of a later visit is left out: few people have so many.</source>
      <translation>No cuenta {count} resultado de una visita posterior: pocas personas tienen tantas.</translation>
    </message>
    <message>
      <source>{count} results of later visits are left out: few people have so many.</source>
      <translation>No cuentan {count} resultados de visitas posteriores: pocas personas tienen tantas.</translation>
    </message>
    <message>
      <source>{count} samples missing in between</source>
      <translation>faltan {count} muestras en medio</translation>
    </message>
    <message>
      <source>{count} saved reps</source>
      <translation>{count} repeticiones guardadas</translation>
    </message>
    <message>
      <source>{count} sealed values of {column} are damaged and stay as they are.</source>
      <translation>{count} valores cifrados de {column} están dañados y se quedan como están.</translation>
    </message>
    <message>
      <source>{count} test is left out: {why}.</source>
      <translation>No cuenta {count} test: {why}.</translation>
    </message>
    <message>
      <source>{count} tests are left out: {why}.</source>
      <translation>No cuentan {count} tests: {why}.</translation>
    </message>
    <message>
      <source>{count} trials</source>
      <translation>{count} intentos</translation>
    </message>
    <message>
      <source>{count} values</source>
      <translation>{count} valores</translation>
    </message>
    <message>
      <source>{count} visits</source>
      <translation>{count} visitas</translation>
    </message>
    <message>
      <source>{cutoff_hz:g} Hz is too high for {rate_hz:g} samples a second.</source>
      <translation>{cutoff_hz:g} Hz es demasiado para {rate_hz:g} muestras por segundo.</translation>
    </message>
    <message>
      <source>{cutoff_hz:g} Hz is too low for {rate_hz:g} samples a second.</source>
      <translation>{cutoff_hz:g} Hz es muy poco para {rate_hz:g} muestras por segundo.</translation>
    </message>
    <message>
      <source>{days:.0f} days</source>
      <translation>{days:.0f} días</translation>
    </message>
    <message>
      <source>{day} is too far away.</source>
      <translation>{day} está demasiado lejos.</translation>
    </message>
    <message>
      <source>{day} {time_s:.0f} s</source>
      <translation>{day} {time_s:.0f} s</translation>
    </message>
    <message>
      <source>{day}: plan begun, stage “{stage}”</source>
      <translation>{day}: plan empezado, etapa «{stage}»</translation>
    </message>
    <message>
      <source>{day}: stage “{stage}”; {reason}</source>
      <translation>{day}: etapa «{stage}»; {reason}</translation>
    </message>
    <message>
      <source>{disk} The end of the recording is lost.</source>
      <translation>{disk} El final de la grabación se ha perdido.</translation>
    </message>
    <message>
      <source>{done} Which was better?</source>
      <translation>{done} ¿Cuál fue mejor?</translation>
    </message>
    <message>
      <source>{done} of {planned}</source>
      <translation>{done} de {planned}</translation>
    </message>
    <message>
      <source>{done} of {reps}</source>
      <translation>{done} de {reps}</translation>
    </message>
    <message>
      <source>{done} of {total} recordings measured</source>
      <translation>{done} de {total} registros medidos</translation>
    </message>
    <message>
      <source>{done}; asked {planned}</source>
      <translation>{done}; pedido {planned}</translation>
    </message>
    <message>
      <source>{done}; planned {planned}</source>
      <translation>{done}; previsto {planned}</translation>
    </message>
    <message>
      <source>{eccentric}, against {isometric}{practice}{mass}</source>
      <translation>{eccentric}, frente a {isometric}{practice}{mass}</translation>
    </message>
    <message>
      <source>{factor:g} × the weight of {mass_kg:g} kg</source>
      <translation>{factor:g} × el peso de {mass_kg:g} kg</translation>
    </message>
    <message>
      <source>{figure} left, {percent} % done, {lapses}</source>
      <translation>quedan {figure}, {percent} % hecho, {lapses}</translation>
    </message>
    <message>
      <source>{filter}, despiked</source>
      <translation>{filter}, sin picos</translation>
    </message>
    <message>
      <source>{filter}, notch {hz:g} Hz</source>
      <translation>{filter}, supresor de {hz:g} Hz</translation>
    </message>
    <message>
      <source>{first:.2f} s to {last:.2f} s</source>
      <translation>de {first:.2f} s a {last:.2f} s</translation>
    </message>
    <message>
      <source>{first} And {n} more.</source>
      <translation>{first} Y {n} más.</translation>
    </message>
    <message>
      <source>{folder} could not be cleared: {error}</source>
      <translation>no se pudo limpiar {folder}: {error}</translation>
    </message>
    <message>
      <source>{folder} is not here now.</source>
      <translation>{folder} no está ahora.</translation>
    </message>
    <message>
      <source>{folder} is not here now. Plug its disk in, or pick another folder.</source>
      <translation>{folder} no está ahora. Conectar su disco o elegir otra carpeta.</translation>
    </message>
    <message>
      <source>{force_n:.0f} N, {day}</source>
      <translation>{force_n:.0f} N, {day}</translation>
    </message>
    <message>
      <source>{force_n:.4g} N</source>
      <translation>{force_n:.4g} N</translation>
    </message>
    <message>
      <source>{force_n:.4g} N lies above the largest load, {to_n:.4g} N: what the rig shows there is carried on from below, not calibrated.</source>
      <translation>{force_n:.4g} N supera la carga mayor, {to_n:.4g} N: lo que el equipo muestra ahí se prolonga desde abajo, no está calibrado.</translation>
    </message>
    <message>
      <source>{force_n:10.6g} N  ± {expanded_n:.3g} N ({share_pct:.2g} %), {df} degrees of freedom (95 %: k = {k_95:.2f})</source>
      <translation>{force_n:10.6g} N  ± {expanded_n:.3g} N ({share_pct:.2g} %), {df} grados de libertad (95 %: k = {k_95:.2f})</translation>
    </message>
    <message>
      <source>{force_n:g} N</source>
      <translation>{force_n:g} N</translation>
    </message>
    <message>
      <source>{force_n:g} N is not a force above 0 N.</source>
      <translation>{force_n:g} N no es una fuerza mayor que 0 N.</translation>
    </message>
    <message>
      <source>{force} N at right angles are {torque} N·m</source>
      <translation>{force} N en ángulo recto son {torque} N·m</translation>
    </message>
    <message>
      <source>{force} N, kept before, is the 100 % here.</source>
      <translation>{force} N, guardados antes, son aquí el 100 %.</translation>
    </message>
    <message>
      <source>{force} N, {name} ({source})</source>
      <translation>{force} N, {name} ({source})</translation>
    </message>
    <message>
      <source>{force} is the 100 % of {task}, {side}, from now on.</source>
      <translation>{force} es el 100 % de {task}, {side}, desde ahora.</translation>
    </message>
    <message>
      <source>{force}. {key}: keep it as 100 %, or not.</source>
      <translation>{force}. {key}: guardarlo como 100 %, o no.</translation>
    </message>
    <message>
      <source>{form} none: people do not differ ({meaning})</source>
      <translation>{form} ninguna: las personas no difieren ({meaning})</translation>
    </message>
    <message>
      <source>{form} {value:.3f}, no interval ({meaning})</source>
      <translation>{form} {value:.3f}, sin intervalo ({meaning})</translation>
    </message>
    <message>
      <source>{form} {value:.3f}, {low:.3f} to {high:.3f} ({meaning})</source>
      <translation>{form} {value:.3f}, de {low:.3f} a {high:.3f} ({meaning})</translation>
    </message>
    <message>
      <source>{gravity_words}; mass {mass_words}; buoyancy of air ×{buoyancy:.5f}</source>
      <translation>{gravity_words}; masa {mass_words}; empuje del aire ×{buoyancy:.5f}</translation>
    </message>
    <message>
      <source>{half} % of the centre</source>
      <translation>{half} % del centro</translation>
    </message>
    <message>
      <source>{half} N</source>
      <translation>{half} N</translation>
    </message>
    <message>
      <source>{half} points of the reference</source>
      <translation>{half} puntos de la referencia</translation>
    </message>
    <message>
      <source>{here} is here now. Go back to live to start.</source>
      <translation>{here} está aquí ahora. Para empezar, volver a en vivo.</translation>
    </message>
    <message>
      <source>{here} is here now. {key} chooses {code} for this visit.</source>
      <translation>{here} está aquí ahora. {key} elige {code} para esta visita.</translation>
    </message>
    <message>
      <source>{hold_s:.3g} s</source>
      <translation>{hold_s:.3g} s</translation>
    </message>
    <message>
      <source>{hold_s:g} s</source>
      <translation>{hold_s:g} s</translation>
    </message>
    <message>
      <source>{hold} at {pct} is hard: {mean}.</source>
      <translation>{hold} al {pct} es duro: {mean}.</translation>
    </message>
    <message>
      <source>{hold} is longer than most people hold {pct} {where}; expect the force to fall. It is {mean}.</source>
      <translation>{hold} es más de lo que la mayoría mantiene {pct} {where}; es de esperar que la fuerza caiga. Es {mean}.</translation>
    </message>
    <message>
      <source>{hours:.0f} h</source>
      <translation>{hours:.0f} h</translation>
    </message>
    <message>
      <source>{hz:g} Hz</source>
      <translation>{hz:g} Hz</translation>
    </message>
    <message>
      <source>{hz:g} Hz, seen at {seen:g} Hz</source>
      <translation>{hz:g} Hz, vista a {seen:g} Hz</translation>
    </message>
    <message>
      <source>{intervals} do not fit class {cell_class} ({least:g} to {most:g}).</source>
      <translation>{intervals} no encajan en la clase {cell_class} ({least:g} a {most:g}).</translation>
    </message>
    <message>
      <source>{key} again starts.</source>
      <translation>{key} otra vez empieza.</translation>
    </message>
    <message>
      <source>{known}; its uncertainty is not known.</source>
      <translation>{known}; no se conoce su incertidumbre.</translation>
    </message>
    <message>
      <source>{known}; uncertainty ± {expanded_n:.2g} N at {at_n:.0f} N (k = 2).</source>
      <translation>{known}; incertidumbre ± {expanded_n:.2g} N a {at_n:.0f} N (k = 2).</translation>
    </message>
    <message>
      <source>{last_day} is before {first_day}.</source>
      <translation>{last_day} es anterior a {first_day}.</translation>
    </message>
    <message>
      <source>{last} with reps so far.</source>
      <translation>{last} con repeticiones hasta ahora.</translation>
    </message>
    <message>
      <source>{least} to {most}</source>
      <translation>{least} a {most}</translation>
    </message>
    <message>
      <source>{leg}, next</source>
      <translation>{leg}, próxima</translation>
    </message>
    <message>
      <source>{level} of 10</source>
      <translation>{level} de 10</translation>
    </message>
    <message>
      <source>{level} of {most}</source>
      <translation>{level} de {most}</translation>
    </message>
    <message>
      <source>{level} of {of} on {day}</source>
      <translation>{level} de {of} el {day}</translation>
    </message>
    <message>
      <source>{level}, N</source>
      <translation>{level}, N</translation>
    </message>
    <message>
      <source>{listed} at the end of the range that no pull reaches: disconnected, or wired the wrong way round. Look at plug and cable.</source>
      <translation>{listed} en el extremo del rango que ningún tirón alcanza: desconectada, o mal cableada. Mirar conector y cable.</translation>
    </message>
    <message>
      <source>{listed} at the end of the range. Take the load off and look at the wiring.</source>
      <translation>{listed} en el extremo del rango. Quitar la carga y mirar el cableado.</translation>
    </message>
    <message>
      <source>{load_v:g} v lies outside class {cell_class}.</source>
      <translation>{load_v:g} v está fuera de la clase {cell_class}.</translation>
    </message>
    <message>
      <source>{loads} different {under} are too few for a {model}; it needs {needed}, because a curve that meets each point shows nothing of how well it fits.</source>
      <translation>{loads} {under} distintas son muy pocas para una {model}; hacen falta {needed}, porque una curva que pasa por cada punto no muestra nada de lo bien que se ajusta.</translation>
    </message>
    <message>
      <source>{load} rising loads do not show a curve.</source>
      <translation>{load} cargas crecientes no muestran ninguna curva.</translation>
    </message>
    <message>
      <source>{logbook} is in use by a program that is running.</source>
      <translation>{logbook} lo está usando un programa en marcha.</translation>
    </message>
    <message>
      <source>{lost} lost in {breaks}, {damaged}, of {lost_2} samples.</source>
      <translation>{lost} perdidas en {breaks}, {damaged}, de {lost_2} muestras.</translation>
    </message>
    <message>
      <source>{low:.0f} to {high:.0f} {unit}</source>
      <translation>{low:.0f} a {high:.0f} {unit}</translation>
    </message>
    <message>
      <source>{low:.1f} N or more</source>
      <translation>{low:.1f} N o más</translation>
    </message>
    <message>
      <source>{low:.1f} to {high:.1f} N</source>
      <translation>{low:.1f} a {high:.1f} N</translation>
    </message>
    <message>
      <source>{lower:.2f} to {upper:.2f} (95 %, Fisher)</source>
      <translation>de {lower:.2f} a {upper:.2f} (95 %, Fisher)</translation>
    </message>
    <message>
      <source>{lower_n:.0f} to {upper_n:.0f} N</source>
      <translation>de {lower_n:.0f} a {upper_n:.0f} N</translation>
    </message>
    <message>
      <source>{lower_n} to {upper_n} N</source>
      <translation>{lower_n} a {upper_n} N</translation>
    </message>
    <message>
      <source>{lower} to {upper} {unit}</source>
      <translation>{lower} a {upper} {unit}</translation>
    </message>
    <message>
      <source>{low} % of {reference} N or more</source>
      <translation>{low} % de {reference} N o más</translation>
    </message>
    <message>
      <source>{low} N or more</source>
      <translation>{low} N o más</translation>
    </message>
    <message>
      <source>{low} at the low end, {high} at the high end</source>
      <translation>{low} en el extremo bajo, {high} en el alto</translation>
    </message>
    <message>
      <source>{low} to {high} N·m at a lever arm of {arm} m</source>
      <translation>{low} a {high} N·m con un brazo de palanca de {arm} m</translation>
    </message>
    <message>
      <source>{low}–{high} % of {reference} N</source>
      <translation>{low}–{high} % de {reference} N</translation>
    </message>
    <message>
      <source>{mains_hz:g} Hz at {seen_hz:.0f} Hz</source>
      <translation>{mains_hz:g} Hz a {seen_hz:.0f} Hz</translation>
    </message>
    <message>
      <source>{marker} moved by hand ({who}, {when}); rules: {at} s</source>
      <translation>{marker} movida a mano ({who}, {when}); reglas: {at} s</translation>
    </message>
    <message>
      <source>{marker}, by hand</source>
      <translation>{marker}, a mano</translation>
    </message>
    <message>
      <source>{mark} {number}. {name}{now}
      weeks {first}–{last}</source>
      <translation>{mark} {number}. {name}{now}
      semanas {first}–{last}</translation>
    </message>
    <message>
      <source>{mass_kg:g} kg</source>
      <translation>{mass_kg:g} kg</translation>
    </message>
    <message>
      <source>{mass_kg:g} kg weigh {weight_n:.1f} N; shown are {shown} N ({ratio:.3g} times as much).</source>
      <translation>{mass_kg:g} kg pesan {weight_n:.1f} N; se muestran {shown} N ({ratio:.3g} veces eso).</translation>
    </message>
    <message>
      <source>{minutes:.0f} min</source>
      <translation>{minutes:.0f} min</translation>
    </message>
    <message>
      <source>{n:.0f} N</source>
      <translation>{n:.0f} N</translation>
    </message>
    <message>
      <source>{name} cell</source>
      <translation>célula {name}</translation>
    </message>
    <message>
      <source>{name} uses {share_pct:.0f} %</source>
      <translation>{name} usa {share_pct:.0f} %</translation>
    </message>
    <message>
      <source>{name} {force_n:.0f} N: {source}</source>
      <translation>{name} {force_n:.0f} N: {source}</translation>
    </message>
    <message>
      <source>{name} {force} N</source>
      <translation>{name} {force} N</translation>
    </message>
    <message>
      <source>{name} {share_n:.2g} N</source>
      <translation>{name} {share_n:.2g} N</translation>
    </message>
    <message>
      <source>{name} {sigma_n:.4f} N rms, {widths_n:.3f} N peak to peak ({bits:.1f} noise-free bits of {rated_n:g} N)</source>
      <translation>{name} {sigma_n:.4f} N rms, {widths_n:.3f} N de pico a pico ({bits:.1f} bits sin ruido de {rated_n:g} N)</translation>
    </message>
    <message>
      <source>{name} {signed} ± {doubt:.3f} N/min</source>
      <translation>{name} {signed} ± {doubt:.3f} N/min</translation>
    </message>
    <message>
      <source>{name} ±{amplitude_n:.3f} N at {mains_hz:g} Hz{at}</source>
      <translation>{name} ±{amplitude_n:.3f} N a {mains_hz:g} Hz{at}</translation>
    </message>
    <message>
      <source>{name}, from {from_s:.1f} s</source>
      <translation>{name}, desde {from_s:.1f} s</translation>
    </message>
    <message>
      <source>{name}: 1 point over {across}.</source>
      <translation>{name}: 1 punto sobre {across}.</translation>
    </message>
    <message>
      <source>{name}: not known, {why}</source>
      <translation>{name}: no se sabe, {why}</translation>
    </message>
    <message>
      <source>{name}: nothing yet</source>
      <translation>{name}: aún nada</translation>
    </message>
    <message>
      <source>{name}: {count} points over {across}.</source>
      <translation>{name}: {count} puntos sobre {across}.</translation>
    </message>
    <message>
      <source>{name}: {pct:.4f} % at {force_n:.6g} N</source>
      <translation>{name}: {pct:.4f} % a {force_n:.6g} N</translation>
    </message>
    <message>
      <source>{name}: {value} on {day}</source>
      <translation>{name}: {value} el {day}</translation>
    </message>
    <message>
      <source>{nominal_kg:g} kg is not a nominal value of OIML R 111 in this program (1, 2, 5, 10, 20, 50 kg).</source>
      <translation>{nominal_kg:g} kg no es un valor nominal de OIML R 111 en este programa (1, 2, 5, 10, 20, 50 kg).</translation>
    </message>
    <message>
      <source>{notch_hz:g} Hz cannot be taken out at {rate_hz:g} samples a second.</source>
      <translation>{notch_hz:g} Hz no se puede quitar a {rate_hz:g} muestras por segundo.</translation>
    </message>
    <message>
      <source>{number} damaged frame</source>
      <translation>{number} trama dañada</translation>
    </message>
    <message>
      <source>{number} damaged frames</source>
      <translation>{number} tramas dañadas</translation>
    </message>
    <message>
      <source>{number} day</source>
      <translation>{number} día</translation>
    </message>
    <message>
      <source>{number} days</source>
      <translation>{number} días</translation>
    </message>
    <message>
      <source>{number} gap</source>
      <translation>{number} hueco</translation>
    </message>
    <message>
      <source>{number} gap of unknown length</source>
      <translation>{number} hueco de duración desconocida</translation>
    </message>
    <message>
      <source>{number} gaps</source>
      <translation>{number} huecos</translation>
    </message>
    <message>
      <source>{number} gaps of unknown length</source>
      <translation>{number} huecos de duración desconocida</translation>
    </message>
    <message>
      <source>{number} lost sample</source>
      <translation>{number} muestra perdida</translation>
    </message>
    <message>
      <source>{number} lost samples</source>
      <translation>{number} muestras perdidas</translation>
    </message>
    <message>
      <source>{number} more are in the logbook.</source>
      <translation>{number} más están en el registro.</translation>
    </message>
    <message>
      <source>{number} rep</source>
      <translation>{number} repetición</translation>
    </message>
    <message>
      <source>{number} reps</source>
      <translation>{number} repeticiones</translation>
    </message>
    <message>
      <source>{number} sample</source>
      <translation>{number} muestra</translation>
    </message>
    <message>
      <source>{number} samples</source>
      <translation>{number} muestras</translation>
    </message>
    <message>
      <source>{number} saturated sample</source>
      <translation>{number} muestra saturada</translation>
    </message>
    <message>
      <source>{number} saturated samples</source>
      <translation>{number} muestras saturadas</translation>
    </message>
    <message>
      <source>{number} session</source>
      <translation>{number} sesión</translation>
    </message>
    <message>
      <source>{number} sessions</source>
      <translation>{number} sesiones</translation>
    </message>
    <message>
      <source>{number} set</source>
      <translation>{number} serie</translation>
    </message>
    <message>
      <source>{number} sets</source>
      <translation>{number} series</translation>
    </message>
    <message>
      <source>{number} week</source>
      <translation>{number} semana</translation>
    </message>
    <message>
      <source>{number} weeks</source>
      <translation>{number} semanas</translation>
    </message>
    <message>
      <source>{number}. {name}, weeks {first} to {last}</source>
      <translation>{number}. {name}, semanas {first} a {last}</translation>
    </message>
    <message>
      <source>{n} candidates, {front} on the front; recommended: {name}</source>
      <translation>{n} candidatos, {front} en el frente; recomendado: {name}</translation>
    </message>
    <message>
      <source>{n} judged so far.</source>
      <translation>{n} juzgados hasta ahora.</translation>
    </message>
    <message>
      <source>{n} lost</source>
      <translation>{n} perdidas</translation>
    </message>
    <message>
      <source>{n} recordings</source>
      <translation>{n} registros</translation>
    </message>
    <message>
      <source>{n} recordings in {folder}</source>
      <translation>{n} registros en {folder}</translation>
    </message>
    <message>
      <source>{n} trials: the two best differ by {d} %, best and worst by {r} %.</source>
      <translation>{n} intentos: los dos mejores difieren un {d} %, mejor y peor un {r} %.</translation>
    </message>
    <message>
      <source>{n} used, {out} left out.</source>
      <translation>{n} usados, {out} descartados.</translation>
    </message>
    <message>
      <source>{n} {signed} N</source>
      <translation>{n} {signed} N</translation>
    </message>
    <message>
      <source>{origin}, for “{task}”, {sides}</source>
      <translation>{origin}, para «{task}», {sides}</translation>
    </message>
    <message>
      <source>{own} of {other}, {reached_pct} %.</source>
      <translation>{own} de {other}, {reached_pct} %.</translation>
    </message>
    <message>
      <source>{pain} is above {low} and not above {high}</source>
      <translation>{pain}: por encima de {low} y no por encima de {high}</translation>
    </message>
    <message>
      <source>{path} could not be reached: {error}</source>
      <translation>no se pudo llegar a {path}: {error}</translation>
    </message>
    <message>
      <source>{path}: bytes outside its rows</source>
      <translation>{path}: bytes fuera de sus filas</translation>
    </message>
    <message>
      <source>{path}: its name</source>
      <translation>{path}: su nombre</translation>
    </message>
    <message>
      <source>{path}: what was told in it</source>
      <translation>{path}: lo que consta en ella</translation>
    </message>
    <message>
      <source>{path}: {count} of {column}</source>
      <translation>{path}: {count} de {column}</translation>
    </message>
    <message>
      <source>{path}: {problem} The preferences are as shipped.</source>
      <translation>{path}: {problem} Las preferencias quedan como de fábrica.</translation>
    </message>
    <message>
      <source>{path}: {problem} The preferences are as shipped; the file is now {aside_name}.</source>
      <translation>{path}: {problem} Las preferencias quedan como de fábrica; el archivo es ahora {aside_name}.</translation>
    </message>
    <message>
      <source>{people} athletes are few: the intervals of a bootstrap are too narrow.</source>
      <translation>{people} atletas son pocos: los intervalos de un bootstrap son demasiado estrechos.</translation>
    </message>
    <message>
      <source>{people} athletes. Eccentric less isometric: {bias_n:.0f} N on average, limits of agreement {lower_n:.0f} to {upper_n:.0f} N. Bootstrap by athlete, seed {seed}.</source>
      <translation>{people} atletas. Excéntrica menos isométrica: {bias_n:.0f} N de media, límites de concordancia de {lower_n:.0f} a {upper_n:.0f} N. Bootstrap por atleta, semilla {seed}.</translation>
    </message>
    <message>
      <source>{people} people, {trials} trials; {complete} people have all scores. Mean {mean:.1f} {unit}.</source>
      <translation>{people} personas, {trials} intentos; {complete} personas tienen todos los valores. Media {mean:.1f} {unit}.</translation>
    </message>
    <message>
      <source>{place} (last known on {day})</source>
      <translation>{place} (última noticia: {day})</translation>
    </message>
    <message>
      <source>{plays} judged: A ({a}) better in {n_a}, B ({b}) better in {n_b}, no difference in {same}.</source>
      <translation>{plays} juzgados: A ({a}) mejor en {n_a}, B ({b}) mejor en {n_b}, sin diferencia en {same}.</translation>
    </message>
    <message>
      <source>{problem} Nothing was opened; type it again.</source>
      <translation>{problem} No se abrió nada; escribirla de nuevo.</translation>
    </message>
    <message>
      <source>{r:g} is not between −1 and 1.</source>
      <translation>{r:g} no está entre −1 y 1.</translation>
    </message>
    <message>
      <source>{rate_hz:.2f} samples a second by the board's clock, asked {asked_hz:g} ({off_pct:+.2f} %); jitter {jitter_s:.3f} ms rms, {jitter_most_s:.3f} ms at most.</source>
      <translation>{rate_hz:.2f} muestras por segundo por el reloj de la placa, pedidas {asked_hz:g} ({off_pct:+.2f} %); fluctuación {jitter_s:.3f} ms rms, {jitter_most_s:.3f} ms como máximo.</translation>
    </message>
    <message>
      <source>{rate_hz:g} Hz</source>
      <translation>{rate_hz:g} Hz</translation>
    </message>
    <message>
      <source>{rate_hz:g} Hz, {who}</source>
      <translation>{rate_hz:g} Hz, {who}</translation>
    </message>
    <message>
      <source>{rate_hz:g} samples a second are too few to compare filters; {rate_least_hz:g} are needed.</source>
      <translation>{rate_hz:g} muestras por segundo son muy pocas para comparar filtros; hacen falta {rate_least_hz:g}.</translation>
    </message>
    <message>
      <source>{residuals}, the largest {most:.3g} N, loads up to {to:.4g} N</source>
      <translation>{residuals}, el mayor de {most:.3g} N, cargas hasta {to:.4g} N</translation>
    </message>
    <message>
      <source>{residual}; R² = {r2:.9f}</source>
      <translation>{residual}; R² = {r2:.9f}</translation>
    </message>
    <message>
      <source>{residual}; through zero</source>
      <translation>{residual}; por cero</translation>
    </message>
    <message>
      <source>{run}Go back to {shown} on the {cell}.</source>
      <translation>{run}Volver a {shown} en la {cell}.</translation>
    </message>
    <message>
      <source>{run}Hang {shown} on the {cell}.</source>
      <translation>{run}Colgar {shown} de la {cell}.</translation>
    </message>
    <message>
      <source>{run}Leave the {cell} empty.</source>
      <translation>{run}Dejar vacía la {cell}.</translation>
    </message>
    <message>
      <source>{run}Load the {cell} to about {shown}.</source>
      <translation>{run}Cargar la {cell} hasta unos {shown}.</translation>
    </message>
    <message>
      <source>{run}Take everything off the {cell}.</source>
      <translation>{run}Quitar todo de la {cell}.</translation>
    </message>
    <message>
      <source>{run}Unload the {cell} to about {shown}.</source>
      <translation>{run}Descargar la {cell} hasta unos {shown}.</translation>
    </message>
    <message>
      <source>{samples} samples in {seconds:.1f} s at rest.</source>
      <translation>{samples} muestras en {seconds:.1f} s en reposo.</translation>
    </message>
    <message>
      <source>{score_n:g} N is no result; one is {least_n:g} to {force_max_n:g} N.</source>
      <translation>{score_n:g} N no es un resultado; uno es de {least_n:g} a {force_max_n:g} N.</translation>
    </message>
    <message>
      <source>{seconds:.0f} s</source>
      <translation>{seconds:.0f} s</translation>
    </message>
    <message>
      <source>{seconds} s</source>
      <translation>{seconds} s</translation>
    </message>
    <message>
      <source>{second} less {first}</source>
      <translation>{second} menos {first}</translation>
    </message>
    <message>
      <source>{series}: {value} on {day}, n = {n}</source>
      <translation>{series}: {value} el {day}, n = {n}</translation>
    </message>
    <message>
      <source>{sets} of {reps} × {hold_s:g} s, {rest_s:g} s rest</source>
      <translation>{sets} de {reps} × {hold_s:g} s, {rest_s:g} s de descanso</translation>
    </message>
    <message>
      <source>{sets} of {reps} × {time} (clock: {clock}), {rest_s:g} s rest; {side_order}</source>
      <translation>{sets} de {reps} × {time} (reloj: {clock}), {rest_s:g} s de descanso; {side_order}</translation>
    </message>
    <message>
      <source>{sets} × {reps} × {hold_s:g} s</source>
      <translation>{sets} × {reps} × {hold_s:g} s</translation>
    </message>
    <message>
      <source>{set}, {seconds} s</source>
      <translation>{set}, {seconds} s</translation>
    </message>
    <message>
      <source>{share_pct:.0f} % of the published mean{compared}, {mean_s:.3g} s; people differ by ± {narrow:.0f} to {wide:.0f} %</source>
      <translation>{share_pct:.0f} % de la media publicada{compared}, {mean_s:.3g} s; las personas difieren ± {narrow:.0f} a {wide:.0f} %</translation>
    </message>
    <message>
      <source>{sides} {number} of {of} · {reps} × {hold} s · {task}</source>
      <translation>{sides} {number} de {of} · {reps} × {hold} s · {task}</translation>
    </message>
    <message>
      <source>{sides}, warm-up · {reps} × {hold} s · {task}</source>
      <translation>{sides}, calentamiento · {reps} × {hold} s · {task}</translation>
    </message>
    <message>
      <source>{side} is heavier</source>
      <translation>{side} pesa más</translation>
    </message>
    <message>
      <source>{side} is weaker</source>
      <translation>{side} es más débil</translation>
    </message>
    <message>
      <source>{side} next in {time}</source>
      <translation>Sigue {side} en {time}</translation>
    </message>
    <message>
      <source>{side} next, {key} starts</source>
      <translation>Sigue {side}; {key} empieza</translation>
    </message>
    <message>
      <source>{side} {force} N</source>
      <translation>{side} {force} N</translation>
    </message>
    <message>
      <source>{side}: 1 test is kept, {force_n:.1f} N on {day}. It is of the first visit with this task: practice, left out of charts and noise. A test of a later visit counts.</source>
      <translation>{side}: hay 1 prueba guardada, {force_n:.1f} N el {day}. Es de la primera visita con esta tarea: práctica, que no entra en los gráficos ni en el ruido. Cuenta una prueba de una visita posterior.</translation>
    </message>
    <message>
      <source>{side}: cannot tell yet what is noise; it takes three visits with a test that counts, so far {tests}.</source>
      <translation>{side}: aún no se puede decir qué es ruido; hacen falta tres visitas con una prueba que cuente, hasta ahora {tests}.</translation>
    </message>
    <message>
      <source>{side}: get ready {time}</source>
      <translation>{side}: preparados {time}</translation>
    </message>
    <message>
      <source>{side}: of changes that are noise ({whose} typical error {error:.1f} N, n = {tests} tests), 95 % lie within ± {mdc:.1f} N of the first test</source>
      <translation>{side}: de los cambios que son ruido ({whose} error típico {error:.1f} N, n = {tests} pruebas), el 95 % está dentro de ± {mdc:.1f} N de la primera prueba</translation>
    </message>
    <message>
      <source>{side}: the force before the injury is of another definition and not shown.</source>
      <translation>{side}: la fuerza de antes de la lesión es de otra definición y no se muestra.</translation>
    </message>
    <message>
      <source>{side}: {count} tests are kept, the best {force_n:.1f} N on {day}. They are of the first visit with this task: practice, left out of charts and noise. A test of a later visit counts.</source>
      <translation>{side}: hay {count} pruebas guardadas, la mejor {force_n:.1f} N el {day}. Son de la primera visita con esta tarea: práctica, que no entra en los gráficos ni en el ruido. Cuenta una prueba de una visita posterior.</translation>
    </message>
    <message>
      <source>{side}: {force_n:.0f} N before the injury ({day})</source>
      <translation>{side}: {force_n:.0f} N antes de la lesión ({day})</translation>
    </message>
    <message>
      <source>{side}needs a reference. {missing}</source>
      <translation>{side}necesita una referencia. {missing}</translation>
    </message>
    <message>
      <source>{side}{words}; 100 % is {reference} N</source>
      <translation>{side}{words}; el 100 % es {reference} N</translation>
    </message>
    <message>
      <source>{source_name} has come to its end.</source>
      <translation>{source_name} ha llegado a su fin.</translation>
    </message>
    <message>
      <source>{source_name} is closed.</source>
      <translation>{source_name} está cerrado.</translation>
    </message>
    <message>
      <source>{stage} (now)</source>
      <translation>{stage} (ahora)</translation>
    </message>
    <message>
      <source>{start:.2f} s to {end:.2f} s, {lapses}</source>
      <translation>de {start:.2f} s a {end:.2f} s, {lapses}</translation>
    </message>
    <message>
      <source>{s} s and {ns} N·s above the floor</source>
      <translation>{s} s y {ns} N·s sobre el suelo</translation>
    </message>
    <message>
      <source>{target} holds the backup of another logbook. It is left as it is.</source>
      <translation>{target} contiene la copia de otro registro. Se deja como está.</translation>
    </message>
    <message>
      <source>{target} holds what is to be copied.</source>
      <translation>{target} contiene lo que se va a copiar.</translation>
    </message>
    <message>
      <source>{task}, both sides</source>
      <translation>{task}, ambos lados</translation>
    </message>
    <message>
      <source>{task}, {sides}, {definition}: {people} people</source>
      <translation>{task}, {sides}, {definition}: {people} personas</translation>
    </message>
    <message>
      <source>{task}: maximal test, {definition}</source>
      <translation>{task}: prueba máxima, {definition}</translation>
    </message>
    <message>
      <source>{task}: symmetry</source>
      <translation>{task}: simetría</translation>
    </message>
    <message>
      <source>{task}: {side} in % of before the injury, {definition}</source>
      <translation>{task}: {side} en % de antes de la lesión, {definition}</translation>
    </message>
    <message>
      <source>{task}: {side} in % of {other}, {definition}</source>
      <translation>{task}: {side} en % de {other}, {definition}</translation>
    </message>
    <message>
      <source>{task}: {value:.1f} % on {day}, by {formula}; {sides}.</source>
      <translation>{task}: {value:.1f} % el {day}, por {formula}; {sides}.</translation>
    </message>
    <message>
      <source>{tau_s:g} s does not fit {rate_hz:g} samples a second.</source>
      <translation>{tau_s:g} s no va con {rate_hz:g} muestras por segundo.</translation>
    </message>
    <message>
      <source>{text} is still to come.</source>
      <translation>{text} aún está por venir.</translation>
    </message>
    <message>
      <source>{title}, {count} athletes</source>
      <translation>{title}, {count} atletas</translation>
    </message>
    <message>
      <source>{title}: {band} is at the desk.</source>
      <translation>{title}: {band} está en la mesa.</translation>
    </message>
    <message>
      <source>{title}: {first:.0f} % on {begun}, {newest:.0f} % on {day}. {noise}</source>
      <translation>{title}: {first:.0f} % el {begun}, {newest:.0f} % el {day}. {noise}</translation>
    </message>
    <message>
      <source>{total_n:g} N is not above 0 N.</source>
      <translation>{total_n:g} N no está por encima de 0 N.</translation>
    </message>
    <message>
      <source>{trial}: mean {mean:.1f} {unit}</source>
      <translation>{trial}: media {mean:.1f} {unit}</translation>
    </message>
    <message>
      <source>{unfitting_words} Set the board as it was, or calibrate again.</source>
      <translation>{unfitting_words} Poner la placa como estaba, o calibrar de nuevo.</translation>
    </message>
    <message>
      <source>{value} of {n:.1f} N</source>
      <translation>{value} de {n:.1f} N</translation>
    </message>
    <message>
      <source>{visits} of {people} here</source>
      <translation>{visits} de {people} de aquí</translation>
    </message>
    <message>
      <source>{waiting} notes are</source>
      <translation>{waiting} notas están</translation>
    </message>
    <message>
      <source>{weeks} into the plan; in this stage since {day}.</source>
      <translation>{weeks} desde el inicio del plan; en esta etapa desde {day}.</translation>
    </message>
    <message>
      <source>{what} is on the list again.</source>
      <translation>{what} está de nuevo en la lista.</translation>
    </message>
    <message>
      <source>{where}. A: {a}. B: {b}.</source>
      <translation>{where}. A: {a}. B: {b}.</translation>
    </message>
    <message>
      <source>{where}. {done} Play X and Y.</source>
      <translation>{where}. {done} Reproduzca X e Y.</translation>
    </message>
    <message>
      <source>{where}: pain stayed low, and no rise of {rise_points} points or more.</source>
      <translation>{where}: el dolor siguió bajo, sin subir {rise_points} puntos o más.</translation>
    </message>
    <message>
      <source>{why}, the morning after included.</source>
      <translation>{why}, con la mañana siguiente.</translation>
    </message>
    <message>
      <source>{why}; the onset can be set by hand</source>
      <translation>{why}; el inicio se puede fijar a mano</translation>
    </message>
    <message>
      <source>{within_weeks} weeks</source>
      <translation>{within_weeks} semanas</translation>
    </message>
    <message>
      <source>{words} and {other_words}</source>
      <translation>{words} y {other_words}</translation>
    </message>
    <message>
      <source>{words} {old}, now {new}</source>
      <translation>{words} {old}, ahora {new}</translation>
    </message>
    <message>
      <source>{words}, at {kg} kg of {date}</source>
      <translation>{words}, con {kg} kg del {date}</translation>
    </message>
    <message>
      <source>{words}, by an athlete who is archived.</source>
      <translation>{words}, de un atleta archivado.</translation>
    </message>
    <message>
      <source>{words}: {counts} counts, spread {spread}, {limit} allowed</source>
      <translation>{words}: {counts} cuentas, dispersión {spread}, permitido {limit}</translation>
    </message>
    <message>
      <source>{words}; first {force:.1f} N ({definition}, {origin}, {day}), {count} different ones in this period</source>
      <translation>{words}; primero {force:.1f} N ({definition}, {origin}, {day}), {count} distintos en este periodo</translation>
    </message>
    <message>
      <source>{words}; range {found}</source>
      <translation>{words}; rango {found}</translation>
    </message>
    <message>
      <source>{year} is still to come.</source>
      <translation>{year} aún está por venir.</translation>
    </message>
    <message>
      <source>± 10 % of a centre of 168 N is ± 16.8 N, whatever the reference is.</source>
      <translation>± 10 % de un centro de 168 N es ± 16,8 N, sea cual sea la referencia.</translation>
    </message>
    <message>
      <source>± 10 points around 70 % reach from 60 to 80 % of the reference.</source>
      <translation>± 10 puntos en torno al 70 % van del 60 al 80 % de la referencia.</translation>
    </message>
    <message>
      <source>± {tolerance} % of the centre (± {half} {also})</source>
      <translation>± {tolerance} % del centro (± {half} {also})</translation>
    </message>
    <message>
      <source>± {tolerance} N (± {share} % of the centre)</source>
      <translation>± {tolerance} N (± {share} % del centro)</translation>
    </message>
    <message>
      <source>± {tolerance} points of the reference (± {share} % of the centre)</source>
      <translation>± {tolerance} puntos de la referencia (± {share} % del centro)</translation>
    </message>
    <message>
      <source>±{tolerance_pct:g} % assumed</source>
      <translation>±{tolerance_pct:g} % supuesto</translation>
    </message>
    <message>
      <source>“{key}” is for moving among the controls.</source>
      <translation>«{key}» es para moverse entre los controles.</translation>
    </message>
    <message>
      <source>“{key}” is no key.</source>
      <translation>«{key}» no es una tecla.</translation>
    </message>
    <message>
      <source>“{key}” is taken: {does}.</source>
      <translation>«{key}» está ocupada: {does}.</translation>
    </message>
    <message>
      <source>“{label}” is in use for this cell already.</source>
      <translation>«{label}» ya está en uso para esta célula.</translation>
    </message>
    <message>
      <source>“{name}” cannot be opened: {error}.</source>
      <translation>«{name}» no se puede abrir: {error}.</translation>
    </message>
    <message>
      <source>“{name}” is in the list already.</source>
      <translation>«{name}» ya está en la lista.</translation>
    </message>
    <message>
      <source>“{name}” is no file of a backup.</source>
      <translation>«{name}» no es un archivo de una copia de seguridad.</translation>
    </message>
    <message>
      <source>“{part}” is no force in newtons.</source>
      <translation>«{part}» no es una fuerza en newtons.</translation>
    </message>
    <message>
      <source>“{path_name}” is no name of a report.</source>
      <translation>«{path_name}» no es un nombre de informe.</translation>
    </message>
    <message>
      <source>“{plan}”: stage {stage} of {stages}, “{name}”, since {day}.</source>
      <translation>«{plan}»: etapa {stage} de {stages}, «{name}», desde el {day}.</translation>
    </message>
    <message>
      <source>“{rig}”, {board}, {rate:.0f} samples a second; zero: {zero}.</source>
      <translation>«{rig}», {board}, {rate:.0f} muestras por segundo; cero: {zero}.</translation>
    </message>
    <message>
      <source>“{strip}” is no mass in kilograms.</source>
      <translation>«{strip}» no es una masa en kilogramos.</translation>
    </message>
    <message>
      <source>“{task}” is not in the stage that the plan is at.</source>
      <translation>«{task}» no está en la etapa actual del plan.</translation>
    </message>
    <message>
      <source>“{text}” is no date.</source>
      <translation>«{text}» no es una fecha.</translation>
    </message>
    <message>
      <source>“{text}” is none of M1, M2 and M3.</source>
      <translation>«{text}» no es M1, M2 ni M3.</translation>
    </message>
    <message>
      <source>“{text}” is not a number that fits.</source>
      <translation>«{text}» no es un número que valga.</translation>
    </message>
    <message>
      <source>“{text}” must be a date such as 2026-11-30.</source>
      <translation>«{text}» debe ser una fecha como 2026-11-30.</translation>
    </message>
    <message>
      <source>▲ above</source>
      <translation>▲ por encima</translation>
    </message>
    <message>
      <source>▶ {name}
      followed, now: {stage}</source>
      <translation>▶ {name}
      se sigue, ahora: {stage}</translation>
    </message>
    <message>
      <source>▽ not above</source>
      <translation>▽ no por encima</translation>
    </message>
    <message>
      <source>✓ at the desk</source>
      <translation>✓ en la mesa</translation>
    </message>
  </context>
</TS>
