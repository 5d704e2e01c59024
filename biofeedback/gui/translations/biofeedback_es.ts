<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="es" sourcelanguage="en">
  <context>
    <name>biofeedback</name>
    <message>
      <source>    {name}
      archived</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>    {name}
      not followed, was at: {stage}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source> (now)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source> of {who}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>% of the centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>% of the range</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>% of the reference</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>+{n} day</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>+{n} days</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>, a first test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>, taken at {time}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>0 complete</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>0 to 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>1 s, N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>100 % is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>100 % is the</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>5 to 100 %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A digit answers, + is 10, Del takes it back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A little more</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A new plan, from what stands beside</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A new plan; it is kept, and followed, when you save it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A reference cell tells newtons; no gravity is needed.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A rep starts by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A set is under way. Stop it first.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A set is under way: the desk stays as it is.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A test of {time} was done and not kept: {task}, {side}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>A trial lasts</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>About half</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>About three quarters</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>About {share} % of all there is, built up over 1 to 2 s.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above it the low end is proposed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above the ceiling of {n} N.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above the floor all the way down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above the floor for {above} of {tempo} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above the floor for {above} of {tempo} s; the force broke at {broke} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above the sea</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Above {cut} of 10 stopping is advised; you decide.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add criterion</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Add stage</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Advice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Advise to stop above</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Against</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Against {last} last time: {by} N ({pct} %), {words}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All athletes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All keys as usual</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All keys, marks and words</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All points are taken. Look at the figures, then keep it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All sets at the desk, one after the other</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All sets done</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>All there is: built up over 1 to 2 s, {s} s in all.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Also look at: {fields}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Also reps of others than who is here now.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Altitude</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>An empty form</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>An invented example</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>An invented example.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Another board, or another rate or gain: please begin again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Another trial is asked for while the two best differ by more.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Answer “pain now” for a proposal.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Apart at most</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Archive</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Archived</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Archived too</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Archived. Put the athlete back on the list first.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Archived: {name}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Archived; nothing is lost. Undo puts it back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>As it was saved.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ask for a press on each cell</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>At least</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athlete's screen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athlete's screen on the other monitor, or back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athlete's screen to the other monitor, and back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes, tasks, plan: a new one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes, tasks, plan: archive, or put back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes, tasks, plan: put back what went last</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes, tasks, plan: the form as it was saved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes: choose. Today: take to the desk</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Athletes: who is here, and who there is</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Back to live</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Back to the rep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Balance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Balance is required</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Balance ±</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band for each side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band narrower</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Band wider</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin another test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin the check</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin the check, or end it here</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin the next set now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin the test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin with light ink on dark</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begin, or end without keeping</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Begins when it is saved.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Body mass</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Body mass limits the exercise; outside load may be due.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Born in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Both</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Breathing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Build up over 1 to 2 s, then hold all you have. Breathe freely; do not hold the breath. Stop at pain, dizziness or doubt. What the treating clinician allows goes first; the program only advises. Take zero in the same way each time: with the limb resting, or of the empty rig.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Build up to all you have</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>CV, %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibrate</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibrate with known masses or forces</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibrate {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibration</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibration: begin, or end without keeping</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibration: take back. Check: leave this press out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Calibration: take this point. Check, test: begin, or end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Care</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ceiling</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ceiling in newtons</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ceiling: {forces}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cell</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Change between day and night</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Changed; proposed is {n} {unit}. {reason}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Check</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Check the lowering reps of that day</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Check the rig: rate, noise, drift, each cell</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose a task, or type the name of a new one.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose an athlete first.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose an athlete to copy to.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose an effort in the list.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose for this visit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose one, or type the name of a new one.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Choose {code} for this visit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Clock</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Code</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Complete reps, of those planned. Void ones count nowhere.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Consent</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Copied to {code}, who follows it from now on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Copy to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Copy to athlete</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Criteria to move on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cue</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Cut short</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Date</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Day</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Definition</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Definition of the 100 %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Desk</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Do the next set with the other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Dominant side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Done of planned</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Done of planned; the warm-up apart</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Drawn sample {ms} ms old</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ease off slightly</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Eccentric strength is lacking.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Effort</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Effort of 10: {levels}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Effort of the last set, 0 to 9 of 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Effort of the last set, 10 of 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Effort was not asked.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Effort {level} of 10 is noted, of the last set.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Efforts so far</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Empty for none.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Empty: 9.80665 m/s²</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Empty: no upper end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Empty: the band is the whole range</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Empty: the one typed for the side.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End of the visit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End practice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End the check</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End the visit here</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End this set, leave it at that, and go on after a rest</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End visit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>End without keeping</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ended; nothing was kept.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ends the test now; all trials so far are kept (F9)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Enough</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Enough after {n} trials</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Enter or a double click: this set comes next</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Error tones on and off ({key})</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Even out the sides</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Exactly when the rest is over; never the first set</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Excursions up to this are no lapses.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fewer reps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Figures come once three loads have been read.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Findings and figures</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>First test of this task on this side: more trials are allowed, and the result is marked as a practice score.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Floor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fold the desk away, and back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Fold the desk away, or back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>For holds a sustained number is the better 100 %: with a peak, holds above about 65 % settle below their target.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>For {who}, printed {day}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Force</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Force in % of the reference times seconds. The way into the band is in it, so it may be more than reps × hold × centre of the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Force of the rep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Force shown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Forces are compared only in the same position. Sets that are saved keep the position they were done in.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Form</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From a single trial: there is no spread to be seen.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>From the centre of the joint to the middle of pad or strap.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Full screen, and back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Get ready {time}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go on against advice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Go on without pressing this cell</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Grace</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Health of the rig</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Held against</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold by feel</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold timer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Hold {value} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far a side may be from 50 % of the total. Empty for none.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How far apart the two results may be; 0 for the same day</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>How much this test varies cannot be told yet: that takes three visits of this athlete, or two visits each of two people, in the same task.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>In newtons</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Injured side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Isometric against eccentric</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Isometric peaks from which body mass may no longer suffice:</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is kept that you did (Ctrl+Shift+Return)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is kept, and not in use yet: {why}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is on the list again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is said then; it keeps nobody from starting</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It is so</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>It was a practice score.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Its newtons may be another person's, look at them: {places}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Joint</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Joint angle</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep and use</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep breathing</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep date, proposal and note</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep it and use it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep this calibration and use it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep this page</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keep: calibration, test, athlete, task, plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kept</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kept as no. {number} of this cell, “{label}”, and in use from now on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kept in one table, and nowhere else.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kept with the move; may be empty.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kept, and not judged: no rule for it has a source</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kept; what is changed now counts once it is kept again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Key: {what}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keys and words</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Keys of a presenter or foot switch</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kind</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kind of criterion</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Kind of intensity</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Known loads</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Last lowering rep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Last test: {force}, {definition}, {date}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Latitude</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Leave it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Leave it aside</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Leave out the next rep of this set</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Leave out the next set, or the one that was stopped</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Leave this press out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left {left}, right {right}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Left {l} ({lp} %), right {r} ({rp} %) of the total.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Let go</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Let no rep and no set start, and go on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Let rep start</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Let the next rep start, where reps start by key</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Lever arm</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Line, {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Listening for one second …</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Little pain up to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Loads</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Longer hold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Longer rest</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Look at saved reps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Louder {louder}, softer {softer}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Make the band narrower</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Make the band wider</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark pain 0 to 9 of 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark pain 10 of 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark pain {level} of 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Mark the effort of the last set, {level} of 10</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Marks</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Masses can fall: secure each one, keep feet and hands from under it, and let nobody sit in the rig. Stay below the cell's rated load.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Maximal test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Maximal test of {who}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Maximal test under way</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Maximal test: find the 100 %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Maximal tests: {names}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Measured with pain {level} of 10: it may show the pain more than the strength.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Measures</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Messages</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Middle of the band.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>More reps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move the band down</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move the band up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Move to the next stage</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Movement</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Moving</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Muscle soreness, if you like</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Must be 0.1 to 50000 N.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Must be a whole number.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Must be more than 0.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Must lie above the lower end.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Must not be passed. Empty for none.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Name</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nearly all you have</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Needs a reference; type one above, or N.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New athlete</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New stage</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>New task</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Next date</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Next date: {days}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Next set</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Next set begins by itself</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Next set in {time}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Next time, by the pain rule</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Night</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No criterion yet: you decide alone.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No fit yet: take points under three loads.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No logbook is open: a test could not be kept.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No lowering rep on this day.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No plan yet. New plan begins one, empty or from an example; Open file takes one from a file.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No rep was recorded.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No reps{of_whom} are saved yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No rest between the reps? Save again if it is meant.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No sample is drawn as live</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No samples are coming.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No set of today's page was done, so no place is proposed.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No set yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No signal</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>No trial counts: there is no result.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nobody is in the rig while it is checked, and nothing rests on it. Press by hand only, and keep fingers out of joints and straps.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not all is on disk</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not begun: a field needs another value, or no rig is on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not calibrated: the newtons are nominal.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not kept yet.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not noted: effort is told after a set.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not saved yet: look at the name.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not saved: a field needs another value.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not started: a field needs another value.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not taken over: a field needs another value.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not this one, because</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Not yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Note</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Note for next time</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Note on the plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Note on the stage</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Noted: {reason}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Noted: {text}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Notes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Notes may tell who somebody is: they leave this computer only where they are asked for.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Notes: {notes}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing is measured yet.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing is planned for today.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing is proposed: stopping is advised.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing of {who} was kept yet.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Nothing to put back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Now at the stage: {name}. The other key moves back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Of the body: 0.7 for 70 % of it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Of the record; empty: its number</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Off the list, or back on it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Off this list, or back on it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>On</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>On another page: back to live</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>On which it was measured: 2026-03-09</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Once more takes the day against this advice.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One easy rep for each side before each task</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One more: the two best differ by {d} %, more than {a} %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One rep more in this set</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>One step</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open a plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Open file</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Other</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Other side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Other task</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pad or strap</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pages</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain in the last one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain in the last one? It ends the test.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain last night</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain of 10: {levels}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain rule</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain the morning after the last session</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain was not asked for.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain was not asked.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain went to {level} of 10, above the cut of {cut}: ask the treating clinician before the next visit.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain {level} in the last effort</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pain {level} of 10 is noted.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Part of the signal is missing; above the floor for {above} s at least</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Path</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Pause</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Paused</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Place in the range</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Plan of {who}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Plan: stages, and what leads to the next</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Plans</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Plates as sold: about 2 %. Weighed plates: that of the scale.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Please give 0 to 100 %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Please give a whole number, 0 to {most}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Please give a whole number.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Please type a day, such as 2026-03-31.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Please type a number, for example 12.5.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Points</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Posture</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Practice ramp {n} of {of}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Practice ramps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Practice score: of a first session, before the task is learnt. Do not build on it alone.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Practice {number} of {of}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Preferences</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Preferences of this computer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Preferences: type, sound, monitors, keys</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Print the plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Print to PDF</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Progress of the check</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Proposed. {reason}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put back what was archived last</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put it back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Put {what} back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Range from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Range of the set without a plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Ready</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reason</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reason of the last change: {reason}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Recording: no</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Recording: yes</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reference</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reference is old after</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reference shows</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rep {number} of {reps}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Repeat</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Repeat rep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Reps {value}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Residuals</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Residuals: ● rising, ▽ falling</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rest</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rest after a ramp</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rest after a trial</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rest {time}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rest {value} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Rested</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Review</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Review: isometric against eccentric, and back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Running order</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Runs</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save as file</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the change, or take it back, first.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the plan as it stands here</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save the plan, or take the change back, first.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Save what stands in the form</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Saved reps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Saved.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Saved. The body mass stays; a newer one can be typed.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Say why it does not count.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Say why the test does not count.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Says</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Search</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set done</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set ended</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set the cell and the loads, then begin.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set under way</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set {number} of {of}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set-up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Set-up of the test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sets</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sets of this visit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sets still to come: {count}. Once more ends the visit.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sets whose end is not in the logbook yet: {n}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sets whose recording was cut off: {n}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sets with at least one rep, of those planned.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shorter hold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shorter rest</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Show what was archived, to put it back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Shown</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sides</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Signal of {reps} reps: {gaps} gaps, {lost} samples lost, {saturated} saturated; largest zero drift {drift}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Since when</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Size of the type</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Skip</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Skip rep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sleep last night, if you like</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound is for athletes who cannot see a screen: silent inside the band, low pulses below it, high ones above, a chime at the end.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound is off.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound is on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound louder; with the down key softer</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound on and off</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Sound on or off</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Spelling of the tolerance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stage</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stages</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stands for the athlete in files, logs and exports: no name.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Start</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Start the set</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Starts by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stay there</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Still</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stillness</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stop</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stop rules and cautions</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stop: ends the set at once; nothing is lost</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stopped</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stopped; above the floor for {above} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stopping is advised. Ask the treating clinician before going on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Stronger</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Such as 5 cm above the outer ankle.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Such as external rotation.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take back all</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take everything off the rig, then begin. It takes ten seconds.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take it up</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take stage out</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the last change back, and then the one before it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the last point back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the last step back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take the whole day</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take this point</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take this point now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take this set to the desk (Ctrl+Return)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take zero of the empty rig</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Take zero with the limb resting</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Taken back. What you typed stays.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Taken back: {load}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Taken out. Undo brings it back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Taken: {load}, {counts} counts.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Takes out the chosen effort; it stays on record. F10: to the reason.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Taking zero for one second: nothing should pull.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Task</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tasks</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tasks: the set-ups forces are compared in</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tempo</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Test</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Test done</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>That lowering rep: {words}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>That went down fast; next time brake softly right from the top</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The arrow keys move the band in the range.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The athlete's screen is beside the desk again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The athlete's screen is on the other monitor.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The athlete's screen is on {monitor}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The chime at the end of a hold. The ceiling warning is louder still:
try it before the athlete puts headphones on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The day is at the desk: {key} begins.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The force that is 100 %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The form as it was saved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The isometric partner was not tested with these sides yet. Test it, or type a floor.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The isometric task whose peak is the least for this lowering.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The last set once more</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The limit is reached; the two best differ by {d} %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The lines are for</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The message before, or advice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The newest plan that is not archived is the one that is followed.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The next effort is a trial.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The order is over. Visit shows what was done.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The plan</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The plan as it was saved</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The plan is back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The plan is in {path}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The plan names the athlete: “{text}”. Take the name out, or press again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The plan of {who} is not saved. Save it, or take it back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The practitioner decides. Newtons alone do not compare people: mass, lever and angle matter.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The program advises; the treating clinician and local rules decide. Sharp or sudden pain, dizziness or pain in the chest: stop.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The program advises; the treating clinician decides. At pain or doubt: stop.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The program proposes; you and the treating clinician decide.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The rep was not done as meant, or the effort was small.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The second monitor is gone: the athlete's screen is here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The set has begun.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The set is over: {reason}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The sets of today</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The stage is taken out. Undo brings it back.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The task names no isometric partner. Choose one in the task.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The task needs a name.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The test is over: {result}. Keep it on its page.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The test was left aside.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The trials, their spread and what they mean are shown here.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The two best differ by {d} %, within {a} %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The typed 100 % is left out, as it is a person's: {places}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>The year, four digits.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is no change to give a reason for.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is no logbook to keep it in.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is no logbook, so nothing was kept.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is no logbook: nothing is known of the athlete.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There is no second monitor.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>There whenever there is a second monitor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>They do not agree within {a} %: the true best may be higher.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This athlete is here now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This athlete is not in the logbook any more.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>This task is not in the logbook any more.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Three show how well it repeats</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time in the band, of reps × hold.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Time since the newest sample was read, plus half a frame until it is drawn;
the live filter's delay comes on top.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To move on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To move on:</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>To move on: {counts}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today {side}: needs a reference. {missing}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today {side}: {newtons}; 100 % is {force} N of {date}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today's order is taken up again; sets still to come: {count}. Next set begins it, End visit leaves it.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today, {date}: {code}, {plan}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today: pain, and the sets that come of it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today: take the whole day, set by set</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Today: take to the desk against advice</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Told when the plan is saved.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tolerance</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Tolerance: from the centre to an edge.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Too much: ease off</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trial {number} of {of}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trial {n} of {of}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trials</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trials, at least</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Trials, at most</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Try</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Try the sound</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Two best within</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Two buttons: page down begins the next set, page up stops.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Type a reference</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Type one</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Typical error {te} N ({te_pct} %; 95 % interval {low} to {high} N), from {whose}. Between two visits less than {mdc} N ({mdc_pct} %) may be noise.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Under the floor this time; {floor} N is the floor</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Undo</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Undo change</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Unit of the ceiling</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Unit of the centre</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Unit of the intensity</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Use as 100 %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Use this</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Usually {key}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Verdicts</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Visit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Visit ended</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Visit of {who}, {day}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Visit: what was done today, and next time</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Void</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Void, reason</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Volume in %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Wait a moment</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Wait until it is still, then take the point.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Warm-up: {name}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Weaker</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What comes next</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is asked for, and the signal</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is the 100 %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is to be known now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is wrong in the fields</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What is wrong with a key</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What the athlete sees</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What the tolerance is of</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What the visit is at</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What this stage asks for</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What to do now</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What was agreed, when, and with whom.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What was changed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>What was changed, and why</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Where it comes from</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Which number is the 100 %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Why the chosen effort does not count, such as: strap slipped.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Why the test does not count; it stays on record.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Why there is no sound</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Why?</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>With</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>With a blank between; a stack as 10+5: 5 10 10+5 20</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Words</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Write a note (F4), Enter keeps it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Write a note; Enter keeps it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Year, month, day, such as 2026-03-31; or none</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Year-month-day.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero taken: {kind}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero: empty rig</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero: limb resting</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero: none taken. What the limb weighs is then part of every force.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero: not taken yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero: {kind}{at} ({offsets} N)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>Zero: {kind}{time}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at least {low} N·m</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at least {low} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at least, %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at most</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>at the end of its range</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>athlete</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>back</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>band</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>band ±</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best 0.5 s, N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>best 1 s, N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>between sets</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>both sides</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>both sides together</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>by</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>ceiling</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>cell</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>change</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>counts</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>days</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>done</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>dose, %·s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>each side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>effort</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>empty</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>empty rig</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>entry</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>filter {ms} ms</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>force (N)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>forces in N, reference cell</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>from week</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>full: the force is seen all the time
only outside the band: it is hidden while all is well
every second rep unseen: hidden in it, and shown after it
fading over the sessions: seen in fewer reps each time
unseen: hidden in each rep, and shown after it</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hold</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>hold end</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>in the last sessions</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>injured: {side}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>inside, s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>is not a number.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>judged</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lapse</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>last here {date}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>lasted, s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left / right, N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>left, dashed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>limb resting</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>load</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>marker {marker}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>masses in kg</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>mean, N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>measure</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>must be a whole number.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no fresh sample</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no newtons yet</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no plan: the set of the desk</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>no signal</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>none</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>none: no percentages</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not asked</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not calibrated</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not known</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>not said</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>nothing chosen</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>of the last</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>one side at a time</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>outcome</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>pain {level}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>peak, N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>please choose</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>points</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>practice {share} %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reason</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reference</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>remark</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>rep</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reps</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>reps not complete: {n}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>rest</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>right</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>run</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>sessions</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>set begun</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>sets</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>sets not done: {n}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>short</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>side</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>skipped</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>spread</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stage {number}, taken out since</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>start</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>stopped</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>task</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>this athlete's {tests} visits</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>time</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>time since the set began (s)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>times the weight</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>to</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>to come</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>to week</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>total</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>touch</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>trial {n}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>unbroken: starts again after a lapse
banked: adds up all time in the band
running: counts on from the first entry</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>under 0.1 N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>under way</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>unit</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>value</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>void: {n}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>void: {reason}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>warm-up first</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>way</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>weeks</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>weighed on</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>what</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>where</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{codes} has this name too. Save again if it is another person.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{code} is here now.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{day}: {stage}. {reason}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{done} of {planned}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{done} of {reps}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{eccentric}, against {isometric}{practice}{mass}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{figure} left, {percent} % done, {lapses} lapses</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{force} N at right angles are {torque} N·m</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{force} is the 100 % from now on.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{force}, {definition}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{key} again starts.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{leg}, next</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{level} of {most}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{low} to {high} N·m at a lever arm of {arm} m</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{mark} {count} {state}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{mark} {number}. {name}{now}
      weeks {first}–{last}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{mark} {state}: {criterion} {why}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{number} trials</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{number}. {name}, weeks {first} to {last}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} blocks not drawn</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} damaged frames</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} lost</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} residuals, the largest {most} N, loads up to {to} N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} saved reps{of_whom}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} trials: the two best differ by {d} %, best and worst by {r} %.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{n} {unit}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{origin},
{definition}, {date}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{seconds} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{set}, {seconds} s</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{sides} {number} of {of} · {reps} × {hold} s · {task}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{sides}, warm-up · {reps} × {hold} s · {task}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{side} {force} N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{side}needs a reference. {missing}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{side}{words}; 100 % is {reference} N</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{size} %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{stage} (now)</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{start} s to {end} s, {lapses} lapses</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{tests} visits of {people} people here</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{title}: {band} is at the desk.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{value} %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{weeks} weeks into the plan; in this stage since {day}.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{what} is on the list again.</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{words}, at {kg} kg of {date}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>{words}: {counts} counts, spread {spread}, {limit} allowed</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>± %</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>▲ above</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>▶ {name}
      followed, now: {stage}</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>▽ not above</source>
      <translation type="unfinished" />
    </message>
    <message>
      <source>✓ at the desk</source>
      <translation type="unfinished" />
    </message>
  </context>
</TS>
