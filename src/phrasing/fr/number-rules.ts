/**
 * The numbers that are heard, in JSGF: digit by digit, in words up to 9999, with a comma, with "et demi".
 * Runs are bounded, so that noise cannot be heard as a longer and longer number.
 */
export const numberRules: readonly string[] = [
  '<figure> = zéro | un | deux | trois | quatre | cinq | six | sept | huit | neuf;',
  '<unit> = un | deux | trois | quatre | cinq | six | sept | huit | neuf;',
  '<teen> = dix | onze | douze | treize | quatorze | quinze | seize | dix sept | dix huit | dix neuf;',
  '<ten> = vingt | trente | quarante | cinquante;',
  '<pair> = <teen> | <ten> [et un | <unit>] | soixante [et un | et onze | <unit> | <teen>] | quatre vingts | quatre vingt (<unit> | <teen>);',
  '<hundreds> = [<unit>] (cent | cents) [<pair> | <unit>];',
  '<figures> = <figure> [<figure> [<figure> [<figure>]]];',
  '<whole> = <figures> | <pair> | <hundreds> | [<unit>] mille [<hundreds> | <pair> | <unit>];',
  '<decimals> = virgule <figure> [<figure> [<figure>]];',
  '<number> = [moins] <whole> [<decimals> | et demi];',
];
