/**
 * What is said wherever an adjustment is advised: in the app, on the command line, on the record. Short, always shown.
 * Sources: hot oil, plug and pressure release as workshop manuals print them; injection injuries reported from about 7 bar
 * (100 psi) up in safety notices (read as excerpts); guards and lock-out are common practice, no source. The unit's own manual and the
 * local rules come first.
 */
export const adjustmentCautions: readonly string[] = [
  "The unit's workshop manual and the local rules come first; this is not a procedure.",
  'Adjust only at standstill, with the drive locked against starting and the guards back on before it turns again.',
  'Let the pressure off first: cycle the solenoid several times. A unit can keep its charge after stopping, and a gauge at zero alone is no proof, since a blocked line shows zero too.',
  'Undo the valve plug slowly, with eye protection; springs and accumulator hold energy. Let hot oil cool before it is drained.',
  'Never feel for a leak with the hand. Oil under pressure that enters the skin is a medical emergency, even when it does not hurt.',
  'Never turn a unit backwards while it is engaged, and never tighten or undo a fitting under pressure.',
  'Change one thing at a time, then test again at the same speed, with the same oil, equally warm.',
];
