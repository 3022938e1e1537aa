/** What the tests use of webidl2, which ships no types. */
declare module 'webidl2' {
  export interface IDLArgument {
    readonly optional: boolean;
  }
  export type IDLMember =
    | { readonly type: 'attribute'; readonly name: string; readonly readonly: boolean }
    | { readonly type: 'operation'; readonly name: string; readonly special: string; readonly arguments: readonly IDLArgument[] }
    | { readonly type: 'constructor'; readonly arguments: readonly IDLArgument[] };
  export type IDLEntry =
    | { readonly type: 'interface'; readonly name: string; readonly partial: boolean; readonly members: readonly IDLMember[] }
    | { readonly type: 'enum'; readonly name: string; readonly values: readonly { readonly value: string }[] }
    | { readonly type: 'dictionary'; readonly name: string };
  export function parse(idl: string): readonly IDLEntry[];
}
