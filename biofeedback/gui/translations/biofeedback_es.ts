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
      <source> of {who}</source>
      <translation> de {who}</translation>
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
      <source>, taken at {time}</source>
      <translation>, tomado a las {time}</translation>
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
      <source>1 s, N</source>
      <translation>1 s, N</translation>
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
      <source>5 to 100 %</source>
      <translation>5 a 100 %</translation>
    </message>
    <message>
      <source>; body mass {kg} kg ({date})</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A change of one point on one day is not a finding.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A digit answers, + is 10, Del takes it back</source>
      <translation>Una cifra responde, + es 10, Supr la retira</translation>
    </message>
    <message>
      <source>A fresh fracture, tendon rupture or repair: within the surgeon's limits.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A lapse: where the clock stood when the band was left.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A little more</source>
      <translation>Un poco más</translation>
    </message>
    <message>
      <source>A muscle strain in its first two or three days; an infection or fever.</source>
      <translation type="unfinished" />
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
      <source>A reference cell tells newtons; no gravity is needed.</source>
      <translation>Una célula de referencia da newtons; no hace falta la gravedad.</translation>
    </message>
    <message>
      <source>A rep starts by</source>
      <translation>Una repetición empieza por</translation>
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
      <source>A test of {time} was done and not kept: {task}, {side}.</source>
      <translation>Una prueba de las {time} se hizo y no se guardó: {task}, {side}.</translation>
    </message>
    <message>
      <source>A trial lasts</source>
      <translation>Un intento dura</translation>
    </message>
    <message>
      <source>AE</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>AE, absolute error: the mean distance from the centre, without sign.</source>
      <translation type="unfinished" />
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
      <source>About {share} % of all there is, built up over 1 to 2 s.</source>
      <translation>Cerca del {share} % de todo lo posible, subiendo en 1 a 2 s.</translation>
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
      <source>Above {cut} of 10 stopping is advised; you decide.</source>
      <translation>Por encima de {cut} de 10 se aconseja parar; la decisión es del profesional.</translation>
    </message>
    <message>
      <source>Add</source>
      <translation>Añadir</translation>
    </message>
    <message>
      <source>Add criterion</source>
      <translation>Añadir criterio</translation>
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
      <source>Against</source>
      <translation>Contra</translation>
    </message>
    <message>
      <source>Against {last} last time: {by} N ({pct} %), {words}.</source>
      <translation>Frente a {last} la última vez: {by} N ({pct} %), {words}.</translation>
    </message>
    <message>
      <source>All athletes</source>
      <translation>Todos los atletas</translation>
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
      <source>All points are taken. Look at the figures, then keep it.</source>
      <translation>Todos los puntos están tomados. Ver las cifras y luego guardar.</translation>
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
      <source>All there is: built up over 1 to 2 s, {s} s in all.</source>
      <translation>Todo lo posible: subir en 1 a 2 s, {s} s en total.</translation>
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
      <source>Another board, or another rate or gain: please begin again.</source>
      <translation>Otra placa, u otra frecuencia o ganancia: hay que empezar de nuevo.</translation>
    </message>
    <message>
      <source>Another language is used from the next start.</source>
      <translation>El nuevo idioma se usa desde el próximo inicio.</translation>
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
      <source>As it was saved.</source>
      <translation>Como estaba guardado.</translation>
    </message>
    <message>
      <source>As the system</source>
      <translation>Como el sistema</translation>
    </message>
    <message>
      <source>Ask a doctor before starting</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ask for a press on each cell</source>
      <translation>Pedir una presión en cada célula</translation>
    </message>
    <message>
      <source>At least</source>
      <translation>Al menos</translation>
    </message>
    <message>
      <source>At the rig</source>
      <translation type="unfinished" />
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
      <source>Back to live</source>
      <translation>Volver a en vivo</translation>
    </message>
    <message>
      <source>Back to the rep</source>
      <translation>Volver a la repetición</translation>
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
      <translation>Equilibrio ±</translation>
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
      <source>Begin another test</source>
      <translation>Empezar otra prueba</translation>
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
      <source>Breaks in the signal.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Breathe</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Breathe freely through every hold. Breath that is held raises blood pressure: people taught not to hold it in isometric knee work had 148/112 in place of 163/120 mmHg (Phys Ther 1989;69:757).</source>
      <translation type="unfinished" />
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
      <source>CE</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>CE, constant error: the mean distance from the centre, with its sign.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>CV</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>CV detrended</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>CV, %</source>
      <translation>CV, %</translation>
    </message>
    <message>
      <source>CV, coefficient of variation: SD of the force in % of its mean.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibrate</source>
      <translation>Calibrar</translation>
    </message>
    <message>
      <source>Calibrate with known masses or forces</source>
      <translation>Calibrar con masas o fuerzas conocidas</translation>
    </message>
    <message>
      <source>Calibrate {name}</source>
      <translation>Calibrar {name}</translation>
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
      <source>Care</source>
      <translation>Cuidado</translation>
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
      <source>Change between day and night</source>
      <translation>Cambiar entre día y noche</translation>
    </message>
    <message>
      <source>Changed; proposed is {n} {unit}. {reason}</source>
      <translation>Cambiado; se propone {n} {unit}. {reason}</translation>
    </message>
    <message>
      <source>Check</source>
      <translation>Comprobación</translation>
    </message>
    <message>
      <source>Check the lowering reps of that day</source>
      <translation>Ver los descensos de ese día</translation>
    </message>
    <message>
      <source>Check the rig: rate, noise, drift, each cell</source>
      <translation>Comprobar el equipo: frecuencia, ruido, deriva, cada célula</translation>
    </message>
    <message>
      <source>Chest pain, or pain in jaw or arm; short breath that does not settle.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose a task, or type the name of a new one.</source>
      <translation>Elegir una tarea o escribir el nombre de una nueva.</translation>
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
      <source>Choose for this visit</source>
      <translation>Elegir para esta visita</translation>
    </message>
    <message>
      <source>Choose one, or type the name of a new one.</source>
      <translation>Elegir una o escribir el nombre de una nueva.</translation>
    </message>
    <message>
      <source>Choose {code} for this visit</source>
      <translation>Elegir {code} para esta visita</translation>
    </message>
    <message>
      <source>Clock</source>
      <translation>Reloj</translation>
    </message>
    <message>
      <source>Code</source>
      <translation>Código</translation>
    </message>
    <message>
      <source>Complete reps, of those planned. Void ones count nowhere.</source>
      <translation>Repeticiones completas, de las previstas. Las nulas no cuentan en ningún sitio.</translation>
    </message>
    <message>
      <source>Consent</source>
      <translation>Consentimiento</translation>
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
      <source>Criteria to move on</source>
      <translation>Criterios para avanzar</translation>
    </message>
    <message>
      <source>Cue</source>
      <translation>Indicación</translation>
    </message>
    <message>
      <source>Cut short</source>
      <translation>Acortar</translation>
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
      <source>Definition</source>
      <translation>Definición</translation>
    </message>
    <message>
      <source>Definition of the 100 %</source>
      <translation>Definición del 100 %</translation>
    </message>
    <message>
      <source>Dense band</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Desk</source>
      <translation>Mesa</translation>
    </message>
    <message>
      <source>Disc on the path</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Dizziness, feeling faint, blurred vision, sudden headache.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Do the next set with the other side</source>
      <translation>Hacer la próxima serie con el otro lado</translation>
    </message>
    <message>
      <source>Does not count.</source>
      <translation type="unfinished" />
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
      <source>Drawn sample {ms} ms old</source>
      <translation>Muestra dibujada con {ms} ms</translation>
    </message>
    <message>
      <source>Ease off slightly</source>
      <translation>Aflojar un poco</translation>
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
      <source>Empty: 9.80665 m/s²</source>
      <translation>Vacío: 9,80665 m/s²</translation>
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
      <source>Ended by the stop key, or with the set.</source>
      <translation type="unfinished" />
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
      <source>Enough after {n} trials</source>
      <translation>Suficiente tras {n} intentos</translation>
    </message>
    <message>
      <source>Enter or a double click: this set comes next</source>
      <translation>Intro o doble clic: esta serie es la próxima</translation>
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
      <source>Excursions up to this are no lapses.</source>
      <translation>Las salidas de hasta este tiempo no cuentan como tales.</translation>
    </message>
    <message>
      <source>Eye disease with new vessels, recent eye or hernia surgery.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fewer reps</source>
      <translation>Menos repeticiones</translation>
    </message>
    <message>
      <source>Figures come once three loads have been read.</source>
      <translation>Las cifras llegan cuando se han leído tres cargas.</translation>
    </message>
    <message>
      <source>Filled, solid</source>
      <translation type="unfinished" />
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
      <source>Floor</source>
      <translation>Suelo</translation>
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
      <source>Force of the rep</source>
      <translation>Fuerza de la repetición</translation>
    </message>
    <message>
      <source>Force shown</source>
      <translation>Fuerza a la vista</translation>
    </message>
    <message>
      <source>Force times time, added up over the hold, in N·s.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Forces are compared only in the same position. Sets that are saved keep the position they were done in.</source>
      <translation>Las fuerzas solo se comparan en la misma posición. Las series guardadas conservan la posición en que se hicieron.</translation>
    </message>
    <message>
      <source>Form</source>
      <translation>Formulario</translation>
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the start of the rep to its first entry into the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the start to the end of a maximal trial.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the start to where the force begins to fall for good.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full</source>
      <translation>Llena</translation>
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
      <source>Go on</source>
      <translation>Seguir</translation>
    </message>
    <message>
      <source>Go on against advice</source>
      <translation>Seguir contra el consejo</translation>
    </message>
    <message>
      <source>Go on without pressing this cell</source>
      <translation>Seguir sin presionar esta célula</translation>
    </message>
    <message>
      <source>Grace</source>
      <translation>Margen</translation>
    </message>
    <message>
      <source>Half of the time the force was higher, half of it lower.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hard holds raise it all the same: in wall squats of men with high blood pressure the upper value was 173 ± 21 mmHg, and the lower one above 115 in 12 of 26 (PMC5882444). Values named for stopping exercise there are 250 and 115 mmHg.</source>
      <translation type="unfinished" />
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
      <source>High blood pressure that is not under control (180/110 mmHg or more).</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold</source>
      <translation>Mantener</translation>
    </message>
    <message>
      <source>Hold by feel</source>
      <translation>Mantener por sensación</translation>
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far a side may be from 50 % of the total, in points.</source>
      <translation type="unfinished" />
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
      <source>How far one person's results scatter from visit to visit without a change.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the force at rest moved from before to after the rep.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far the force went past the upper edge on its way in.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How fast the force fell from there to half, in N per s.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How much this test varies cannot be told yet: that takes three visits of this athlete, or two visits each of two people, in the same task.</source>
      <translation>Aún no se sabe cuánto varía esta prueba: hacen falta tres visitas de este atleta, o dos visitas de dos personas cada una, en la misma tarea.</translation>
    </message>
    <message>
      <source>How the force drifted during the hold, in N per s.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How unlike the sides were, by the formula beside it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>In each session fewer reps are seen: all, ¾, half, a quarter.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>In newtons</source>
      <translation>En newtons</translation>
    </message>
    <message>
      <source>Injured side</source>
      <translation>Lado lesionado</translation>
    </message>
    <message>
      <source>Isometric against eccentric</source>
      <translation>Isométrico frente a excéntrico</translation>
    </message>
    <message>
      <source>Isometric peaks from which body mass may no longer suffice:</source>
      <translation>Picos isométricos desde los que la masa corporal puede no bastar:</translation>
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
      <source>It is on the list again.</source>
      <translation>Está de nuevo en la lista.</translation>
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
      <source>It was a practice score.</source>
      <translation>Era un resultado de práctica.</translation>
    </message>
    <message>
      <source>Its newtons may be another person's, look at them: {places}.</source>
      <translation>Sus newtons pueden ser de otra persona; conviene mirarlos: {places}.</translation>
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
      <source>Language</source>
      <translation>Idioma</translation>
    </message>
    <message>
      <source>Last lowering rep</source>
      <translation>Último descenso</translation>
    </message>
    <message>
      <source>Last test: {force}, {definition}, {date}.</source>
      <translation>Última prueba: {force}, {definition}, {date}.</translation>
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
      <source>Leave this press out</source>
      <translation>Omitir esta presión</translation>
    </message>
    <message>
      <source>Leaving the band for longer than the grace time.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left</source>
      <translation>Izquierda</translation>
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
      <source>Let go</source>
      <translation>Soltar</translation>
    </message>
    <message>
      <source>Let no rep and no set start, and go on</source>
      <translation>No dejar empezar repetición ni serie, y seguir</translation>
    </message>
    <message>
      <source>Let rep start</source>
      <translation>Permitir repetición</translation>
    </message>
    <message>
      <source>Let the next rep start, where reps start by key</source>
      <translation>Permitir la próxima repetición, donde empiezan por tecla</translation>
    </message>
    <message>
      <source>Lever arm</source>
      <translation>Brazo de palanca</translation>
    </message>
    <message>
      <source>Line with teeth</source>
      <translation type="unfinished" />
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
      <source>Look at saved reps</source>
      <translation>Ver repeticiones guardadas</translation>
    </message>
    <message>
      <source>Louder {louder}, softer {softer}</source>
      <translation>Más alto {louder}, más bajo {softer}</translation>
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
      <translation type="unfinished" />
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
      <source>Maximal tests: {names}.</source>
      <translation>Pruebas máximas: {names}.</translation>
    </message>
    <message>
      <source>Mean force from the first entry to the break.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mean force from the first entry to the end of the hold.</source>
      <translation type="unfinished" />
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
      <source>Middle of the band.</source>
      <translation>Medio de la banda.</translation>
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
      <source>Move the band down</source>
      <translation>Bajar la banda</translation>
    </message>
    <message>
      <source>Move the band up</source>
      <translation>Subir la banda</translation>
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
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name</source>
      <translation>Nombre</translation>
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
      <source>Never load a cell beyond its rating; the ceiling warns, it does not hold.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New athlete</source>
      <translation>Nuevo atleta</translation>
    </message>
    <message>
      <source>New numbness, tingling or weakness.</source>
      <translation type="unfinished" />
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
      <source>Newtons of a rig that was not calibrated are a guess.</source>
      <translation type="unfinished" />
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
      <source>Night</source>
      <translation>Noche</translation>
    </message>
    <message>
      <source>No criterion yet: you decide alone.</source>
      <translation>Aún sin criterios: decide solo el profesional.</translation>
    </message>
    <message>
      <source>No fit yet: take points under three loads.</source>
      <translation>Aún sin ajuste: tomar puntos con tres cargas.</translation>
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
      <source>No plan yet. New plan begins one, empty or from an example; Open file takes one from a file.</source>
      <translation>Aún no hay plan. Nuevo plan empieza uno, vacío o de un ejemplo; Abrir archivo lo toma de un archivo.</translation>
    </message>
    <message>
      <source>No rep was recorded.</source>
      <translation>No se grabó ninguna repetición.</translation>
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
      <source>No sample is drawn as live</source>
      <translation>Ninguna muestra se dibuja como en vivo</translation>
    </message>
    <message>
      <source>No samples are coming.</source>
      <translation>No llegan muestras.</translation>
    </message>
    <message>
      <source>No set of today's page was done, so no place is proposed.</source>
      <translation>No se hizo ninguna serie de la página de hoy, así que no se propone lugar.</translation>
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
      <source>No trial counts: there is no result.</source>
      <translation>Ningún intento cuenta: no hay resultado.</translation>
    </message>
    <message>
      <source>Nobody is in the rig while it is checked, and nothing rests on it. Press by hand only, and keep fingers out of joints and straps.</source>
      <translation>Nadie está en el equipo mientras se comprueba, y nada se apoya en él. Presionar solo con la mano, sin dedos en articulaciones ni correas.</translation>
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
      <source>Not calibrated: the newtons are nominal.</source>
      <translation>Sin calibrar: los newtons son nominales.</translation>
    </message>
    <message>
      <source>Not kept yet.</source>
      <translation>Aún sin guardar.</translation>
    </message>
    <message>
      <source>Not noted: effort is told after a set.</source>
      <translation>No anotado: el esfuerzo se dice tras una serie.</translation>
    </message>
    <message>
      <source>Not saved yet: look at the name.</source>
      <translation>Aún sin guardar: mirar el nombre.</translation>
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
      <source>Not taken over: a field needs another value.</source>
      <translation>No adoptado: un campo necesita otro valor.</translation>
    </message>
    <message>
      <source>Not this one, because</source>
      <translation>Esta no, porque</translation>
    </message>
    <message>
      <source>Not yet</source>
      <translation>Aún no</translation>
    </message>
    <message>
      <source>Notch in the timer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Note</source>
      <translation>Nota</translation>
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
      <source>Nothing is measured yet.</source>
      <translation>Aún no se ha medido nada.</translation>
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
      <source>Nothing of {who} was kept yet.</source>
      <translation>Aún no se guardó nada de {who}.</translation>
    </message>
    <message>
      <source>Nothing to put back</source>
      <translation>Nada que devolver</translation>
    </message>
    <message>
      <source>Now at the stage: {name}. The other key moves back.</source>
      <translation>Ahora en la etapa: {name}. La otra tecla vuelve atrás.</translation>
    </message>
    <message>
      <source>Of a lowering: the force to stay above all the way down.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Of the body: 0.7 for 70 % of it.</source>
      <translation>Del cuerpo: 0,7 para el 70 %.</translation>
    </message>
    <message>
      <source>Of the record; empty: its number</source>
      <translation>Del registro; vacío: su número</translation>
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
      <translation>El</translation>
    </message>
    <message>
      <source>On another page: back to live</source>
      <translation>En otra página: volver a en vivo</translation>
    </message>
    <message>
      <source>On which it was measured: 2026-03-09</source>
      <translation>Cuando se midió: 2026-03-09</translation>
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
      <source>One more: the two best differ by {d} %, more than {a} %.</source>
      <translation>Uno más: los dos mejores difieren un {d} %, más del {a} %.</translation>
    </message>
    <message>
      <source>One rep more in this set</source>
      <translation>Una repetición más en esta serie</translation>
    </message>
    <message>
      <source>One step</source>
      <translation>Un paso</translation>
    </message>
    <message>
      <source>Open a plan</source>
      <translation>Abrir un plan</translation>
    </message>
    <message>
      <source>Open file</source>
      <translation>Abrir archivo</translation>
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
      <source>PDF (*.pdf)</source>
      <translation type="unfinished" />
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
      <source>Pain above the agreed cut ({cut} of 10 unless you set another).</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain in the last one</source>
      <translation>Dolor en el último</translation>
    </message>
    <message>
      <source>Pain in the last one? It ends the test.</source>
      <translation>¿Dolor en el último? Termina la prueba.</translation>
    </message>
    <message>
      <source>Pain is asked for before, during and after, from 0 to 10. Up to {cut} is often taken as acceptable where it has gone by the next morning (Thomeé 1997; Silbernagel 2007). Sources differ, so the cut can be changed; it is advice and no permission.</source>
      <translation type="unfinished" />
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
      <source>Pain of 10: {levels}.</source>
      <translation>Dolor de 10: {levels}.</translation>
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
      <source>Pain was not asked for.</source>
      <translation>No se preguntó por el dolor.</translation>
    </message>
    <message>
      <source>Pain was not asked.</source>
      <translation>No se preguntó el dolor.</translation>
    </message>
    <message>
      <source>Pain went to {level} of 10, above the cut of {cut}: ask the treating clinician before the next visit.</source>
      <translation>El dolor llegó a {level} de 10, sobre el límite de {cut}: consultar al clínico tratante antes de la próxima visita.</translation>
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
      <source>Part of the signal is missing; above the floor for {above} s at least</source>
      <translation>Falta parte de la señal; sobre el suelo al menos {above} s</translation>
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
      <source>Plans</source>
      <translation>Planes</translation>
    </message>
    <message>
      <source>Plans (*.json)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Plates as sold: about 2 %. Weighed plates: that of the scale.</source>
      <translation>Discos comerciales: cerca del 2 %. Discos pesados: lo de la báscula.</translation>
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
      <source>Points</source>
      <translation>Puntos</translation>
    </message>
    <message>
      <source>Posture</source>
      <translation>Postura</translation>
    </message>
    <message>
      <source>Practice ramp {n} of {of}</source>
      <translation>Subida de práctica {n} de {of}</translation>
    </message>
    <message>
      <source>Practice ramps</source>
      <translation>Subidas de práctica</translation>
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
      <translation type="unfinished" />
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
      <source>Progress of the check</source>
      <translation>Avance de la comprobación</translation>
    </message>
    <message>
      <source>Proposed. {reason}</source>
      <translation>Propuesto. {reason}</translation>
    </message>
    <message>
      <source>Put back</source>
      <translation>Devolver</translation>
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
      <source>Put {what} back</source>
      <translation>Devolver {what}</translation>
    </message>
    <message>
      <source>RMSE</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>RMSE, root mean square error: distance from the centre, squared, mean, root. RMSE² = CE² + VE².</source>
      <translation type="unfinished" />
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
      <source>Recent heart attack, unstable angina, heart failure, an aneurysm.</source>
      <translation type="unfinished" />
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
      <source>Rep marks</source>
      <translation type="unfinished" />
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
      <source>Repeat rep</source>
      <translation>Repetir repetición</translation>
    </message>
    <message>
      <source>Reps</source>
      <translation>Repeticiones</translation>
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
      <source>Residuals: ● rising, ▽ falling</source>
      <translation>Residuos: ● subiendo, ▽ bajando</translation>
    </message>
    <message>
      <source>Rest</source>
      <translation>Descanso</translation>
    </message>
    <message>
      <source>Rest after a ramp</source>
      <translation>Descanso tras una subida</translation>
    </message>
    <message>
      <source>Rest after a trial</source>
      <translation>Descanso tras un intento</translation>
    </message>
    <message>
      <source>Rest {time}</source>
      <translation>Descanso {time}</translation>
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
      <source>Right</source>
      <translation>Derecha</translation>
    </message>
    <message>
      <source>Ring on the path</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save</source>
      <translation>Guardar</translation>
    </message>
    <message>
      <source>Save as file</source>
      <translation>Guardar como archivo</translation>
    </message>
    <message>
      <source>Save the change, or take it back, first.</source>
      <translation>Primero guardar el cambio o retirarlo.</translation>
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
      <source>Search</source>
      <translation>Buscar</translation>
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
      <source>Set the cell and the loads, then begin.</source>
      <translation>Preparar la célula y las cargas, y empezar.</translation>
    </message>
    <message>
      <source>Set under way</source>
      <translation>Serie en curso</translation>
    </message>
    <message>
      <source>Set up</source>
      <translation>Preparación</translation>
    </message>
    <message>
      <source>Set {number} of {of}</source>
      <translation>Serie {number} de {of}</translation>
    </message>
    <message>
      <source>Set-up</source>
      <translation>Preparación</translation>
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
      <source>Sets with at least one rep, of those planned.</source>
      <translation>Series con al menos una repetición, de las previstas.</translation>
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
      <source>Show what was archived, to put it back.</source>
      <translation>Mostrar lo archivado, para devolverlo.</translation>
    </message>
    <message>
      <source>Shown</source>
      <translation>Mostrado</translation>
    </message>
    <message>
      <source>Side</source>
      <translation>Lado</translation>
    </message>
    <message>
      <source>Sides</source>
      <translation>Lados</translation>
    </message>
    <message>
      <source>Signal of {reps} reps: {gaps} gaps, {lost} samples lost, {saturated} saturated; largest zero drift {drift}.</source>
      <translation>Señal de {reps} repeticiones: {gaps} huecos, {lost} muestras perdidas, {saturated} saturadas; mayor deriva del cero {drift}.</translation>
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
      <translation>Omitir repetición</translation>
    </message>
    <message>
      <source>Sleep last night, if you like</source>
      <translation>Sueño de anoche, si se quiere</translation>
    </message>
    <message>
      <source>Small ring: to come. Ring with a dot: under way. Full disc: complete. Half disc: short. Square with a bar: stopped. Cross: void.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound</source>
      <translation>Sonido</translation>
    </message>
    <message>
      <source>Sound is for athletes who cannot see a screen: silent inside the band, low pulses below it, high ones above, a chime at the end.</source>
      <translation>El sonido es para atletas que no pueden ver una pantalla: silencio dentro de la banda, pulsos graves por debajo, agudos por encima, una campana al final.</translation>
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
      <source>Spelling of the tolerance</source>
      <translation>Forma de escribir la tolerancia</translation>
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
      <source>Start the set</source>
      <translation>Empezar la serie</translation>
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
      <source>Stillness</source>
      <translation>Quietud</translation>
    </message>
    <message>
      <source>Stop</source>
      <translation>Parar</translation>
    </message>
    <message>
      <source>Stop at once</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stop rules and cautions</source>
      <translation>Reglas para parar y precauciones</translation>
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
      <source>Stopping is advised. Ask the treating clinician before going on.</source>
      <translation>Se aconseja parar. Consultar al clínico tratante antes de seguir.</translation>
    </message>
    <message>
      <source>Straps must come off fast. The stop key always works.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stronger</source>
      <translation>Más fuerte</translation>
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
      <translation type="unfinished" />
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
      <source>Take everything off the rig, then begin. It takes ten seconds.</source>
      <translation>Quitar todo del equipo y empezar. Dura diez segundos.</translation>
    </message>
    <message>
      <source>Take it up</source>
      <translation>Retomarla</translation>
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
      <source>Take zero of the empty rig</source>
      <translation>Tomar cero con el equipo vacío</translation>
    </message>
    <message>
      <source>Take zero with the limb resting</source>
      <translation>Tomar cero con la extremidad en reposo</translation>
    </message>
    <message>
      <source>Taken back. What you typed stays.</source>
      <translation>Retirado. Lo escrito queda.</translation>
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
      <source>Taking zero for one second: nothing should pull.</source>
      <translation>Tomando cero un segundo: nada debe tirar.</translation>
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
      <source>Tasks: the set-ups forces are compared in</source>
      <translation>Tareas: posiciones en que se comparan fuerzas</translation>
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
      <source>That lowering rep: {words}.</source>
      <translation>Ese descenso: {words}.</translation>
    </message>
    <message>
      <source>That went down fast; next time brake softly right from the top</source>
      <translation>Bajó rápido; la próxima vez, frenar suave desde arriba</translation>
    </message>
    <message>
      <source>The CV after a straight line was taken out: unsteadiness alone.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The arrow keys move the band in the range.</source>
      <translation>Las flechas mueven la banda en el rango.</translation>
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
      <source>The board sends something that cannot be read. Let it print one or two numbers a line, and look at its baud rate.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The ceiling: a force that must not be passed.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The chime at the end of a hold. The ceiling warning is louder still:
try it before the athlete puts headphones on.</source>
      <translation>La campana al final. El aviso del techo suena más alto:
probar antes de que el atleta se ponga auriculares.</translation>
    </message>
    <message>
      <source>The clock adds up all time in the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The clock counts on from the first entry, whatever happens.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The clock reached the hold.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The clock starts again after a lapse.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The day is at the desk: {key} begins.</source>
      <translation>El día está en la mesa: {key} empieza.</translation>
    </message>
    <message>
      <source>The eccentric peak is above the isometric peak.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The eccentric peak is not above the isometric peak: {parts}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force is hidden while it is inside.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force is withheld during the rep and shown after it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force now, inside the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force now, outside; it points to the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force now, while nothing is asked for.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force that is 100 %, with where it comes from and its date.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force that is 100 %.</source>
      <translation>La fuerza que es el 100 %.</translation>
    </message>
    <message>
      <source>The force that the band applies to: total, or the working side.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force was inside; hatched: it was outside.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force was let go before the clock reached the hold.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The form as it was saved</source>
      <translation>El formulario como se guardó</translation>
    </message>
    <message>
      <source>The highest force in % of the cell's rated load.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The highest force of a lowering, from start to letting go.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The highest force of a maximal trial.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The highest force of the hold.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The highest mean over 0.5 s of a maximal trial.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The highest mean over 1 s of a maximal trial.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The isometric partner was not tested with these sides yet. Test it, or type a floor.</source>
      <translation>La pareja isométrica aún no se probó con estos lados. Probarla o escribir un suelo.</translation>
    </message>
    <message>
      <source>The isometric task whose peak is the least for this lowering.</source>
      <translation>La tarea isométrica cuyo pico es lo mínimo para este descenso.</translation>
    </message>
    <message>
      <source>The last set once more</source>
      <translation>La última serie otra vez</translation>
    </message>
    <message>
      <source>The left side's part of the total force.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The left side, everywhere.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The limit is reached; the two best differ by {d} %.</source>
      <translation>Se llegó al límite; los dos mejores difieren un {d} %.</translation>
    </message>
    <message>
      <source>The lines are for</source>
      <translation>Las líneas son para</translation>
    </message>
    <message>
      <source>The message before, or advice</source>
      <translation>El mensaje anterior, o consejo</translation>
    </message>
    <message>
      <source>The newest plan that is not archived is the one that is followed.</source>
      <translation>Se sigue el plan más nuevo que no está archivado.</translation>
    </message>
    <message>
      <source>The next effort is a trial.</source>
      <translation>El próximo esfuerzo es un intento.</translation>
    </message>
    <message>
      <source>The order is over. Visit shows what was done.</source>
      <translation>El orden terminó. Visita muestra lo hecho.</translation>
    </message>
    <message>
      <source>The picture has met a fault of its own and stands still. The recording goes on: stop the set, then open the window again. The log tells more.</source>
      <translation type="unfinished" />
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
      <source>The position is lost, or a strap or pad slips.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The practitioner decides. Newtons alone do not compare people: mass, lever and angle matter.</source>
      <translation>Decide el profesional. Los newtons solos no comparan personas: cuentan masa, palanca y ángulo.</translation>
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
      <source>The program could not let go of the rig. What was recorded so far is on disk; pull the cable before the window is opened again. The log tells more.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The program measures and advises. The practitioner decides; what the treating clinician says and local rules go first. When in doubt: stop.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The program proposes; you and the treating clinician decide.</source>
      <translation>El programa propone; deciden el profesional y el clínico tratante.</translation>
    </message>
    <message>
      <source>The rep was not done as meant, or the effort was small.</source>
      <translation>La repetición no se hizo como se pedía, o el esfuerzo fue pequeño.</translation>
    </message>
    <message>
      <source>The result of a first session with a task, not yet learnt.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The right side's part of the total force.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The right side, everywhere.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The same in % of the reference times seconds, in %·s.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The second monitor is gone: the athlete's screen is here.</source>
      <translation>El segundo monitor ya no está: la pantalla del atleta está aquí.</translation>
    </message>
    <message>
      <source>The set has begun.</source>
      <translation>La serie ha empezado.</translation>
    </message>
    <message>
      <source>The set is over: {reason}.</source>
      <translation>La serie terminó: {reason}.</translation>
    </message>
    <message>
      <source>The sets of today</source>
      <translation>Las series de hoy</translation>
    </message>
    <message>
      <source>The signal is there.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The stage is taken out. Undo brings it back.</source>
      <translation>La etapa está quitada. Deshacer la devuelve.</translation>
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
      <source>The test is over: {result}. Keep it on its page.</source>
      <translation>La prueba terminó: {result}. Guardarla en su página.</translation>
    </message>
    <message>
      <source>The test was left aside.</source>
      <translation>La prueba se dejó de lado.</translation>
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
      <source>The two results are {days} days apart; {most} are set as the most. Nothing is read into them.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The typed 100 % is left out, as it is a person's: {places}.</source>
      <translation>El 100 % escrito se deja fuera, pues es de una persona: {places}.</translation>
    </message>
    <message>
      <source>The year, four digits.</source>
      <translation>El año, cuatro cifras.</translation>
    </message>
    <message>
      <source>There is no change to give a reason for.</source>
      <translation>No hay cambio al que dar motivo.</translation>
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
      <source>There is no second monitor.</source>
      <translation>No hay segundo monitor.</translation>
    </message>
    <message>
      <source>There whenever there is a second monitor</source>
      <translation>Allí siempre que haya un segundo monitor</translation>
    </message>
    <message>
      <source>These lines have no source that was read; they are common lists.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>They do not agree within {a} %: the true best may be higher.</source>
      <translation>No coinciden dentro del {a} %: el máximo real puede ser mayor.</translation>
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
      <source>This task is not in the logbook any more.</source>
      <translation>Esta tarea ya no está en el registro.</translation>
    </message>
    <message>
      <source>Three show how well it repeats</source>
      <translation>Tres muestran lo bien que se repite</translation>
    </message>
    <message>
      <source>Time above the floor, or the impulse of the force over it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time in the band that is asked for.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time in the band, from the start to the end of the hold.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time in the band, of reps × hold.</source>
      <translation>Tiempo en la banda, de repeticiones × tiempo.</translation>
    </message>
    <message>
      <source>Time in the band, out of balance, where balance is asked for.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time over the upper edge.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time since the newest sample was read, plus half a frame until it is drawn;
the live filter's delay comes on top.</source>
      <translation>Tiempo desde que se leyó la muestra más nueva, más medio cuadro hasta dibujarla;
el retardo del filtro en vivo se suma.</translation>
    </message>
    <message>
      <source>Time so far in the band that the rig's uncertainty does not matter.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time under the lower edge.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time without a usable signal; the clock stood.</source>
      <translation type="unfinished" />
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
      <source>Too much: ease off</source>
      <translation>Demasiado: aflojar</translation>
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
      <translation>Intentos, al menos</translation>
    </message>
    <message>
      <source>Trials, at most</source>
      <translation>Intentos, como máximo</translation>
    </message>
    <message>
      <source>Triangle on the path</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Try</source>
      <translation>Probar</translation>
    </message>
    <message>
      <source>Try the sound</source>
      <translation>Probar el sonido</translation>
    </message>
    <message>
      <source>Two best within</source>
      <translation>Dos mejores dentro del</translation>
    </message>
    <message>
      <source>Two buttons: page down begins the next set, page up stops.</source>
      <translation>Dos botones: página abajo empieza la próxima serie, página arriba para.</translation>
    </message>
    <message>
      <source>Type a reference</source>
      <translation>Escribir una referencia</translation>
    </message>
    <message>
      <source>Type one</source>
      <translation>Escribir una</translation>
    </message>
    <message>
      <source>Typical error {te} N ({te_pct} %; 95 % interval {low} to {high} N), from {whose}. Between two visits less than {mdc} N ({mdc_pct} %) may be noise.</source>
      <translation>Error típico {te} N ({te_pct} %; intervalo del 95 %: {low} a {high} N), de {whose}. Entre dos visitas, menos de {mdc} N ({mdc_pct} %) puede ser ruido.</translation>
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
      <source>Unit of the ceiling</source>
      <translation>Unidad del techo</translation>
    </message>
    <message>
      <source>Unit of the centre</source>
      <translation>Unidad del centro</translation>
    </message>
    <message>
      <source>Unit of the intensity</source>
      <translation>Unidad de la intensidad</translation>
    </message>
    <message>
      <source>Unseen, {name}: from the centre of the band {ce} N ({ce_pct} %) on the whole (constant error), {ve} N ({ve_pct} %) of scatter (variable error), {ae} N ({ae_pct} %) without sign (absolute error); {n} reps.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Unseen, {name}: one rep, {error} N ({pct} %) from the centre of the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Use as 100 %</source>
      <translation>Usar como 100 %</translation>
    </message>
    <message>
      <source>Use this</source>
      <translation>Usar este</translation>
    </message>
    <message>
      <source>Usually {key}</source>
      <translation>Normalmente {key}</translation>
    </message>
    <message>
      <source>VE</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>VE, variable error: the SD of the distance from the centre.</source>
      <translation type="unfinished" />
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
      <source>Visit: what was done today, and next time</source>
      <translation>Visita: lo hecho hoy, y la próxima vez</translation>
    </message>
    <message>
      <source>Void</source>
      <translation>Nula</translation>
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
      <source>Warm-up: {name}</source>
      <translation>Calentamiento: {name}</translation>
    </message>
    <message>
      <source>Weaker</source>
      <translation>Más débil</translation>
    </message>
    <message>
      <source>What comes next</source>
      <translation>Lo que sigue</translation>
    </message>
    <message>
      <source>What is asked for, and the signal</source>
      <translation>Lo que se pide, y la señal</translation>
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
      <source>What is wrong in the fields</source>
      <translation>Qué está mal en los campos</translation>
    </message>
    <message>
      <source>What is wrong with a key</source>
      <translation>Qué está mal en una tecla</translation>
    </message>
    <message>
      <source>What the athlete sees</source>
      <translation>Lo que ve el atleta</translation>
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
      <translation type="unfinished" />
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
      <source>What was changed</source>
      <translation>Qué se cambió</translation>
    </message>
    <message>
      <source>What was changed, and why</source>
      <translation>Qué se cambió y por qué</translation>
    </message>
    <message>
      <source>Where it comes from</source>
      <translation>De dónde viene</translation>
    </message>
    <message>
      <source>Which number is the 100 %</source>
      <translation>Qué número es el 100 %</translation>
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
      <source>With</source>
      <translation>Con</translation>
    </message>
    <message>
      <source>With a blank between; a stack as 10+5: 5 10 10+5 20</source>
      <translation>Con un espacio entre ellas; una pila como 10+5: 5 10 10+5 20</translation>
    </message>
    <message>
      <source>Words</source>
      <translation>Palabras</translation>
    </message>
    <message>
      <source>Worked out from the cell's rating, never calibrated.</source>
      <translation type="unfinished" />
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
      <source>Year, month, day, such as 2026-03-31; or none</source>
      <translation>Año, mes, día, como 2026-03-31; o nada</translation>
    </message>
    <message>
      <source>Year-month-day.</source>
      <translation>Año-mes-día.</translation>
    </message>
    <message>
      <source>Zero</source>
      <translation>Cero</translation>
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
      <source>a centre ±</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a fall of more than the noise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>a range</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>above</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>above floor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>all joints together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>ankle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>as stated</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at least</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>at the end of its range</source>
      <translation>en el extremo de su rango</translation>
    </message>
    <message>
      <source>athlete</source>
      <translation>atleta</translation>
    </message>
    <message>
      <source>athlete's own</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>back</source>
      <translation>volver</translation>
    </message>
    <message>
      <source>balance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>band</source>
      <translation>banda</translation>
    </message>
    <message>
      <source>band ±</source>
      <translation>banda ±</translation>
    </message>
    <message>
      <source>banked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>before the injury</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>below</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best</source>
      <translation>mejor</translation>
    </message>
    <message>
      <source>best 0.5 s mean</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best 0.5 s, N</source>
      <translation>mejor 0,5 s, N</translation>
    </message>
    <message>
      <source>best 1 s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best 1 s mean</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best 1 s, N</source>
      <translation>mejor 1 s, N</translation>
    </message>
    <message>
      <source>best half s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best of another task</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>between sets</source>
      <translation>entre series</translation>
    </message>
    <message>
      <source>both</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>both sides</source>
      <translation>ambos lados</translation>
    </message>
    <message>
      <source>both sides together</source>
      <translation>ambos lados a la vez</translation>
    </message>
    <message>
      <source>both together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>break after</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>broke at {s} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>butterworth</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>by</source>
      <translation>por</translation>
    </message>
    <message>
      <source>cannot tell yet</source>
      <translation type="unfinished" />
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
      <source>change</source>
      <translation>cambio</translation>
    </message>
    <message>
      <source>complete</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>counts</source>
      <translation>cuentas</translation>
    </message>
    <message>
      <source>critically damped</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>curve turns back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>days</source>
      <translation>días</translation>
    </message>
    <message>
      <source>done</source>
      <translation>hecha</translation>
    </message>
    <message>
      <source>dose</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>dose, %·s</source>
      <translation>dosis, %·s</translation>
    </message>
    <message>
      <source>down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>each side</source>
      <translation>cada lado</translation>
    </message>
    <message>
      <source>eccentric strength is lacking</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>effort</source>
      <translation>esfuerzo</translation>
    </message>
    <message>
      <source>elbow</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>empty</source>
      <translation>vacío</translation>
    </message>
    <message>
      <source>empty rig</source>
      <translation>equipo vacío</translation>
    </message>
    <message>
      <source>empty rig missing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>end</source>
      <translation>final</translation>
    </message>
    <message>
      <source>ended</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>enough</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>entry</source>
      <translation>entrada</translation>
    </message>
    <message>
      <source>every second rep unseen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>exponential</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>extrapolation</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>fading</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>fading over the sessions</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>faint</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>fall</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>few loads</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>filter {ms} ms</source>
      <translation>filtro {ms} ms</translation>
    </message>
    <message>
      <source>floor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>force</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>force (N)</source>
      <translation>fuerza (N)</translation>
    </message>
    <message>
      <source>forces in N, reference cell</source>
      <translation>fuerzas en N, célula de referencia</translation>
    </message>
    <message>
      <source>from a first test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from week</source>
      <translation>desde la semana</translation>
    </message>
    <message>
      <source>full</source>
      <translation type="unfinished" />
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
      <source>gaps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>good</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hand or grip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hand or wrist</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hard</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hip</source>
      <translation type="unfinished" />
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
      <source>impulse</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>in the last sessions</source>
      <translation>en las últimas sesiones</translation>
    </message>
    <message>
      <source>injured side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>injured side, then the other</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>injured: {side}</source>
      <translation>lesión: {side}</translation>
    </message>
    <message>
      <source>inside</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>inside, s</source>
      <translation>dentro, s</translation>
    </message>
    <message>
      <source>inverse approximate</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>is not a number.</source>
      <translation>no es un número.</translation>
    </message>
    <message>
      <source>is under it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>judged</source>
      <translation>juzgada</translation>
    </message>
    <message>
      <source>key</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>knee</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lack of fit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lapse</source>
      <translation>salida</translation>
    </message>
    <message>
      <source>last here {date}</source>
      <translation>última vez aquí {date}</translation>
    </message>
    <message>
      <source>last night</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lasted, s</source>
      <translation>duró, s</translation>
    </message>
    <message>
      <source>least-squares line</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>least-squares line through the no-load reading</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>left {left} %, right {right} %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left, dashed</source>
      <translation>izquierda, discontinua</translation>
    </message>
    <message>
      <source>left, then right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>limb resting</source>
      <translation>extremidad en reposo</translation>
    </message>
    <message>
      <source>limited by body mass; outside load may be due</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>line with the smallest largest deviation</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>little time above the floor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>live</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>load</source>
      <translation>carga</translation>
    </message>
    <message>
      <source>load shared</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>loads too close</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>longer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>look at it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lost</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lowering</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lowering mean</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lowering peak</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>marker {marker}</source>
      <translation>marcador {marker}</translation>
    </message>
    <message>
      <source>masses in kg</source>
      <translation>masas en kg</translation>
    </message>
    <message>
      <source>maximal</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>mean</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>measured with pain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>median</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>met</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>more than noise of ± {n} N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>more than the noise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>moving average</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>multiple of body mass</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>must be a whole number.</source>
      <translation>debe ser un número entero.</translation>
    </message>
    <message>
      <source>no answer to load</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no fresh sample</source>
      <translation>sin muestra reciente</translation>
    </message>
    <message>
      <source>no newtons yet</source>
      <translation>aún sin newtons</translation>
    </message>
    <message>
      <source>no plan: the set of the desk</source>
      <translation>sin plan: la serie de la mesa</translation>
    </message>
    <message>
      <source>no signal</source>
      <translation>sin señal</translation>
    </message>
    <message>
      <source>no such peak is known</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no upper edge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>nominal</source>
      <translation type="unfinished" />
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
      <source>not asked</source>
      <translation>no preguntado</translation>
    </message>
    <message>
      <source>not calibrated</source>
      <translation>sin calibrar</translation>
    </message>
    <message>
      <source>not judged</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not known</source>
      <translation>no se sabe</translation>
    </message>
    <message>
      <source>not met</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not said</source>
      <translation>no se dijo</translation>
    </message>
    <message>
      <source>nothing chosen</source>
      <translation>nada elegido</translation>
    </message>
    <message>
      <source>now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>nudge</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of the last</source>
      <translation>de la última</translation>
    </message>
    <message>
      <source>of the other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of the value from before the injury</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>old</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>on each side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>one side at a time</source>
      <translation>un lado cada vez</translation>
    </message>
    <message>
      <source>one-euro</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>only outside the band</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>opening</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>other</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>other side's best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>other side, then the injured</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>outcome</source>
      <translation>resultado</translation>
    </message>
    <message>
      <source>outside</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>overload</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>overshoot</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>own side's best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>pain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>pain {level}</source>
      <translation>dolor {level}</translation>
    </message>
    <message>
      <source>paused</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>peak</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>peak early</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>peak {n} N at {s} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>peak, N</source>
      <translation>pico, N</translation>
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
      <source>points of the reference</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>poor fit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>practice ramp</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>practice score</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>practice {share} %</source>
      <translation>práctica {share} %</translation>
    </message>
    <message>
      <source>press</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>range not covered</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>rated peak</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reaches it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reason</source>
      <translation>motivo</translation>
    </message>
    <message>
      <source>reference</source>
      <translation>referencia</translation>
    </message>
    <message>
      <source>refused</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>release</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>rep repeated</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>rep skipped</source>
      <translation type="unfinished" />
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
      <source>rest</source>
      <translation>descanso</translation>
    </message>
    <message>
      <source>reversed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reversed polarity</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right</source>
      <translation>derecha</translation>
    </message>
    <message>
      <source>right share</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right, then left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>run</source>
      <translation>ronda</translation>
    </message>
    <message>
      <source>running</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>saturated</source>
      <translation type="unfinished" />
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
      <source>set-up changed</source>
      <translation type="unfinished" />
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
      <source>shared</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>short</source>
      <translation>corta</translation>
    </message>
    <message>
      <source>shoulder</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>side</source>
      <translation>lado</translation>
    </message>
    <message>
      <source>silent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>single</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>skipped</source>
      <translation>omitida</translation>
    </message>
    <message>
      <source>slope</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>spread</source>
      <translation>dispersión</translation>
    </message>
    <message>
      <source>stage {number}, taken out since</source>
      <translation>etapa {number}, quitada después</translation>
    </message>
    <message>
      <source>start</source>
      <translation>inicio</translation>
    </message>
    <message>
      <source>steep fall</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stopped</source>
      <translation>detenida</translation>
    </message>
    <message>
      <source>stronger today</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>surely inside</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>surely outside</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>swapped</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>swapped channels</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>symmetry index</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>task</source>
      <translation>tarea</translation>
    </message>
    <message>
      <source>terminal line, no load to largest load</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the club's</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the morning after the last session</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the partner was not tested with these sides</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>the task names no isometric partner</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>this athlete's {tests} visits</source>
      <translation>{tests} visitas de este atleta</translation>
    </message>
    <message>
      <source>time</source>
      <translation>tiempo</translation>
    </message>
    <message>
      <source>time since the set began (s)</source>
      <translation>tiempo desde el inicio de la serie (s)</translation>
    </message>
    <message>
      <source>time to enter</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
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
      <source>trial</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>trial peak</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>trial {n}</source>
      <translation>intento {n}</translation>
    </message>
    <message>
      <source>trunk</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>typed number</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>typical error</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>unbalanced</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>unbroken</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>unit</source>
      <translation>unidad</translation>
    </message>
    <message>
      <source>unseen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>value</source>
      <translation>valor</translation>
    </message>
    <message>
      <source>void</source>
      <translation type="unfinished" />
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
      <source>waiting for the signal</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>warm-up first</source>
      <translation>primero calentar</translation>
    </message>
    <message>
      <source>warning</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>way</source>
      <translation>sentido</translation>
    </message>
    <message>
      <source>weaker today</source>
      <translation type="unfinished" />
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
      <translation type="unfinished" />
    </message>
    <message>
      <source>what</source>
      <translation>qué</translation>
    </message>
    <message>
      <source>where</source>
      <translation>dónde</translation>
    </message>
    <message>
      <source>within noise of ± {n} N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>within the noise</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>zero drift</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{codes} has this name too. Save again if it is another person.</source>
      <translation>{codes} tiene este nombre también. Guardar otra vez si es otra persona.</translation>
    </message>
    <message>
      <source>{code} is here now.</source>
      <translation>{code} está aquí ahora.</translation>
    </message>
    <message>
      <source>{day}: {stage}. {reason}</source>
      <translation>{day}: {stage}. {reason}</translation>
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
      <source>{eccentric}, against {isometric}{practice}{mass}</source>
      <translation>{eccentric}, frente a {isometric}{practice}{mass}</translation>
    </message>
    <message>
      <source>{figure} left, {percent} % done, {lapses} lapses</source>
      <translation>quedan {figure}, {percent} % hecho, {lapses} salidas</translation>
    </message>
    <message>
      <source>{force} N at right angles are {torque} N·m</source>
      <translation>{force} N en ángulo recto son {torque} N·m</translation>
    </message>
    <message>
      <source>{force} N, {name} ({source})</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{force} is the 100 % from now on.</source>
      <translation>{force} es el 100 % desde ahora.</translation>
    </message>
    <message>
      <source>{force}, {definition}</source>
      <translation>{force}, {definition}</translation>
    </message>
    <message>
      <source>{key} again starts.</source>
      <translation>{key} otra vez empieza.</translation>
    </message>
    <message>
      <source>{leg}, next</source>
      <translation>{leg}, próxima</translation>
    </message>
    <message>
      <source>{level} of {most}</source>
      <translation>{level} de {most}</translation>
    </message>
    <message>
      <source>{low} to {high} N·m at a lever arm of {arm} m</source>
      <translation>{low} a {high} N·m con un brazo de palanca de {arm} m</translation>
    </message>
    <message>
      <source>{mark} {count} {state}</source>
      <translation>{mark} {count} {state}</translation>
    </message>
    <message>
      <source>{mark} {number}. {name}{now}
      weeks {first}–{last}</source>
      <translation>{mark} {number}. {name}{now}
      semanas {first}–{last}</translation>
    </message>
    <message>
      <source>{mark} {state}: {criterion} {why}</source>
      <translation>{mark} {state}: {criterion} {why}</translation>
    </message>
    <message>
      <source>{number} trials</source>
      <translation>{number} intentos</translation>
    </message>
    <message>
      <source>{number}. {name}, weeks {first} to {last}</source>
      <translation>{number}. {name}, semanas {first} a {last}</translation>
    </message>
    <message>
      <source>{n} blocks not drawn</source>
      <translation>{n} bloques sin dibujar</translation>
    </message>
    <message>
      <source>{n} damaged frames</source>
      <translation>{n} tramas dañadas</translation>
    </message>
    <message>
      <source>{n} lost</source>
      <translation>{n} perdidas</translation>
    </message>
    <message>
      <source>{n} residuals, the largest {most} N, loads up to {to} N</source>
      <translation>{n} residuos, el mayor {most} N, cargas hasta {to} N</translation>
    </message>
    <message>
      <source>{n} saved reps{of_whom}</source>
      <translation>{n} repeticiones{of_whom} guardadas</translation>
    </message>
    <message>
      <source>{n} trials: the two best differ by {d} %, best and worst by {r} %.</source>
      <translation>{n} intentos: los dos mejores difieren un {d} %, mejor y peor un {r} %.</translation>
    </message>
    <message>
      <source>{n} {unit}</source>
      <translation>{n} {unit}</translation>
    </message>
    <message>
      <source>{origin},
{definition}, {date}</source>
      <translation>{origin},
{definition}, {date}</translation>
    </message>
    <message>
      <source>{seconds} s</source>
      <translation>{seconds} s</translation>
    </message>
    <message>
      <source>{set}, {seconds} s</source>
      <translation>{set}, {seconds} s</translation>
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
      <source>{side} {force} N</source>
      <translation>{side} {force} N</translation>
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
      <source>{size} %</source>
      <translation>{size} %</translation>
    </message>
    <message>
      <source>{stage} (now)</source>
      <translation>{stage} (ahora)</translation>
    </message>
    <message>
      <source>{start} s to {end} s, {lapses} lapses</source>
      <translation>{start} s a {end} s, {lapses} salidas</translation>
    </message>
    <message>
      <source>{s} s and {ns} N·s above the floor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{tests} visits of {people} people here</source>
      <translation>{tests} visitas de {people} personas aquí</translation>
    </message>
    <message>
      <source>{title}: {band} is at the desk.</source>
      <translation>{title}: {band} está en la mesa.</translation>
    </message>
    <message>
      <source>{value} %</source>
      <translation>{value} %</translation>
    </message>
    <message>
      <source>{weeks} weeks into the plan; in this stage since {day}.</source>
      <translation>{weeks} semanas en el plan; en esta etapa desde el {day}.</translation>
    </message>
    <message>
      <source>{what} is on the list again.</source>
      <translation>{what} está de nuevo en la lista.</translation>
    </message>
    <message>
      <source>{words}, at {kg} kg of {date}</source>
      <translation>{words}, con {kg} kg del {date}</translation>
    </message>
    <message>
      <source>{words}: {counts} counts, spread {spread}, {limit} allowed</source>
      <translation>{words}: {counts} cuentas, dispersión {spread}, permitido {limit}</translation>
    </message>
    <message>
      <source>± %</source>
      <translation>± %</translation>
    </message>
    <message>
      <source>± 10 % of a centre of 168 N is ± 16.8 N, whatever the reference is.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>± 10 points around 70 % reach from 60 to 80 % of the reference.</source>
      <translation type="unfinished" />
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
