/**
 * The numbers that are heard, in JSGF: digit by digit, in words up to 9999, with a point, with "and a half".
 * Runs are bounded, so that noise cannot be heard as a longer and longer number.
 * "A hundred" is left out: "eight hundred" was heard as it.
 */
export const numberRules: readonly string[] = [
  '<figure> = zero | oh | one | two | three | four | five | six | seven | eight | nine;',
  '<unit> = one | two | three | four | five | six | seven | eight | nine;',
  '<teen> = ten | eleven | twelve | thirteen | fourteen | fifteen | sixteen | seventeen | eighteen | nineteen;',
  '<ten> = twenty | thirty | forty | fifty | sixty | seventy | eighty | ninety;',
  '<pair> = <teen> | <ten> [<unit>];',
  '<hundreds> = <unit> hundred [[and] (<pair> | <unit>)];',
  '<figures> = <figure> [<figure> [<figure> [<figure>]]];',
  '<whole> = <figures> | <pair> | <hundreds> | <unit> thousand [<hundreds> | and (<pair> | <unit>)];',
  '<decimals> = point <figure> [<figure> [<figure>]];',
  '<number> = [minus] (<whole> [<decimals> | and a half] | <decimals>);',
];
