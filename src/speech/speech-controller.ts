import { spokenParts } from '../phrasing/foreign-text.ts';
import type { Cancel } from './clock.ts';
import type { EarEvent, EarKind } from './ear/ear.ts';
import { audioLeavesDevice } from './ear/ear.ts';
import type { EarDeskStatus } from './ear/ear-desk.ts';
import { createEarDesk } from './ear/ear-desk.ts';
import { createEchoGuard } from './echo-guard.ts';
import type { RejectionReason } from './hearing/port.ts';
import { earconLengths } from './sound/earcon.ts';
import type {
  DroppedUtterance,
  HeardUtterance,
  Listening,
  SpeechController,
  SpeechControllerDeps,
  SpeechSettings,
  SpeechTrouble,
} from './speech-controller-port.ts';
import type { EarState, SpeechState, VoiceState } from './speech-state.ts';
import { silentState } from './speech-state.ts';
import type { DropReason, GateRules, Utterance } from './utterance-gate.ts';
import { createUtteranceGate } from './utterance-gate.ts';
import type { ChunkEvent, SayOutcome, VoiceFault } from './voice/voice.ts';
import type { VoiceDeskStatus } from './voice/voice-desk.ts';
import { createVoiceDesk } from './voice/voice-desk.ts';

/** People let go of a key before their last sound is over, in milliseconds. */
const releaseTail = 250;

export function createSpeechController(deps: SpeechControllerDeps): SpeechController {
  const { clock } = deps;
  const guard = createEchoGuard(() => deps.soundsIn(settings.language));
  const gate = createUtteranceGate(guard);
  const stateListeners = new Set<(state: SpeechState) => void>();
  const heardListeners = new Set<(heard: HeardUtterance) => void>();
  const rejectedListeners = new Set<(dropped: DroppedUtterance) => void>();
  const troubleListeners = new Set<(trouble: SpeechTrouble) => void>();

  let settings = deps.settings;
  let state = silentState;
  let begun = false;
  let listening: Listening | null = null;
  let turn = 0;
  let turnBegan = 0;
  let held = false;
  /** Counts what is said and silenced, so that the end of something earlier changes nothing. */
  let says = 0;
  /** The first sound of what is being said has come; until then the person may still say anything. */
  let sounding = false;
  let cancelSpeech: Cancel = () => undefined;
  let cancelRelease: Cancel = () => undefined;

  const ears = createEarDesk({
    candidates: deps.ears,
    onEvent: takeEarEvent,
    onStatus: takeEarStatus,
    onSwitch: (from, to, fault) => trouble({ kind: 'ear-switched', from, to, fault }),
  });
  const voices = createVoiceDesk({
    candidates: deps.voices,
    onChunk: takeChunk,
    onStatus: takeVoiceStatus,
    onSwitch: (from, to, fault) => trouble({ kind: 'voice-switched', from, to, fault }),
  });

  function changeEar(change: Partial<EarState>): void {
    state = { ...state, ear: { ...state.ear, ...change } };
    for (const listener of stateListeners) listener(state);
  }

  function changeVoice(change: Partial<VoiceState>): void {
    state = { ...state, voice: { ...state.voice, ...change } };
    for (const listener of stateListeners) listener(state);
  }

  function trouble(what: SpeechTrouble): void {
    for (const listener of troubleListeners) listener(what);
  }

  // The ear

  function listensByKey(): boolean {
    return begun && listening !== null && settings.way === 'held';
  }

  function isEarWanted(): boolean {
    return begun && listening !== null && settings.way !== 'off' && (settings.way !== 'held' || held);
  }

  /** Brings the ear to what is wanted of it now. */
  function steerEar(): void {
    if (listening) ears.setGrammar(sounding ? listening.whileSpeaking : listening.grammar);
    ears.keepOpen(listensByKey());
    if (isEarWanted()) ears.listen();
    // Between two presses the ear may still be making something of the last; it rests by itself.
    else if (!listensByKey()) ears.rest();
    showEar();
  }

  function showEar(): void {
    if (ears.status.kind !== 'ready') return;
    if (!isEarWanted()) changeEar({ status: listensByKey() ? 'waiting-for-key' : 'ready', hearing: null });
    else if (state.ear.status !== 'listening' && state.ear.status !== 'hearing') changeEar({ status: 'starting', hearing: null });
  }

  function takeEarStatus(next: EarDeskStatus): void {
    switch (next.kind) {
      case 'off':
        changeEar(silentState.ear);
        break;
      case 'loading':
        changeEar({ status: 'loading', kind: next.ear, progress: next.share, audioLeavesDevice: audioLeavesDevice(next.ear), fault: null });
        break;
      case 'ready':
        changeEar({ status: 'ready', kind: next.ear, progress: null, audioLeavesDevice: audioLeavesDevice(next.ear), fault: null });
        showEar();
        break;
      case 'broken':
        changeEar({ status: 'broken', kind: null, progress: null, audioLeavesDevice: false, fault: next.fault, hearing: null });
        trouble({ kind: 'ear-broken', fault: next.fault });
        break;
    }
  }

  function takeEarEvent(event: EarEvent, ear: EarKind): void {
    switch (event.kind) {
      case 'listening':
        if (isEarWanted()) changeEar({ status: 'listening' });
        break;
      case 'speech-start':
        if (isEarWanted() && !sounding) changeEar({ status: 'hearing' });
        break;
      case 'partial':
        if (gate.judgeText(event.text, event.from, clock.now(), rules()) === 'pass') changeEar({ hearing: event.text });
        break;
      case 'rejected':
        settleHearing();
        reject(event.why, event.text, event.from, event.to);
        break;
      case 'heard':
        settleHearing();
        takeHeard({ alternatives: event.alternatives, from: event.from, to: event.to, ear });
        break;
      case 'broken':
        // The desk has taken care of it.
        break;
    }
  }

  function settleHearing(): void {
    if (state.ear.status === 'hearing') changeEar({ status: 'listening', hearing: null });
    else if (state.ear.hearing !== null) changeEar({ hearing: null });
  }

  function rules(): GateRules {
    return {
      turnBegan,
      nameFirst: settings.way === 'name-first',
      names: deps.namesIn(settings.language),
      isInterrupting: (text) => deps.isInterrupting(text, settings.language),
    };
  }

  function drop(why: DropReason, text: string): void {
    for (const listener of rejectedListeners) listener({ why, text });
  }

  function reject(why: RejectionReason, text: string, from: number, to: number): void {
    const verdict = gate.judgeText(text, from, to, rules());
    drop(verdict === 'pass' ? why : verdict, text);
  }

  function takeHeard(utterance: Utterance): void {
    const verdict = gate.judge(utterance, rules());
    if (verdict.kind === 'name-only') return;
    if (verdict.kind === 'drop') {
      drop(verdict.why, utterance.alternatives[0]?.text ?? '');
      return;
    }
    const interrupted = sounding;
    if (state.voice.saying !== null) silence();
    for (const listener of heardListeners) listener({ alternatives: verdict.alternatives, turn, ear: utterance.ear, interrupted });
  }

  // The voice

  function takeVoiceStatus(next: VoiceDeskStatus): void {
    switch (next.kind) {
      case 'off':
        changeVoice(silentState.voice);
        break;
      case 'ready':
        changeVoice({ status: state.voice.saying === null ? 'ready' : 'speaking', kind: next.voice, fault: null });
        break;
      case 'broken':
        changeVoice({ status: 'broken', kind: null, fault: next.fault });
        trouble({ kind: 'voice-broken', fault: next.fault });
        break;
    }
  }

  function takeChunk(event: ChunkEvent): void {
    if (event.kind === 'is-over') {
      guard.speechEnds(clock.now());
      return;
    }
    if (event.kind === 'reaches') {
      guard.speechReaches(event.character, clock.now());
      return;
    }
    guard.speechBegins(event.text, clock.now(), settings.rate);
    if (sounding) return;
    sounding = true;
    steerEar();
  }

  function stopSpeech(): void {
    says++;
    cancelSpeech();
    cancelSpeech = () => undefined;
    sounding = false;
  }

  function silence(): void {
    stopSpeech();
    settleVoice(null);
  }

  function settleVoice(fault: VoiceFault | null): void {
    if (state.voice.saying === null) return;
    const broken = voices.status.kind === 'broken';
    changeVoice({ status: broken ? 'broken' : 'ready', saying: null, fault: fault ?? state.voice.fault });
    steerEar();
  }

  async function say(text: string): Promise<SayOutcome> {
    stopSpeech();
    const parts = spokenParts(text);
    if (settings.voice === 'off' || parts.length === 0) {
      settleVoice(null);
      return { kind: 'ended' };
    }
    if (voices.status.kind === 'broken') {
      settleVoice(null);
      return { kind: 'failed', fault: voices.status.fault, message: 'No voice is left.' };
    }
    const own = ++says;
    const { language, rate, volume } = settings;
    const speaking = voices.say(parts, { language, rate, volume });
    cancelSpeech = () => speaking.cancel();
    changeVoice({ status: 'speaking', saying: parts.map((part) => part.text).join(' '), fault: null });
    steerEar();
    const outcome = await speaking.done;
    if (own === says) {
      sounding = false;
      const fault = outcome.kind === 'failed' ? outcome.fault : null;
      settleVoice(fault);
      if (fault === 'sound-blocked') trouble({ kind: 'voice-broken', fault });
    }
    return outcome;
  }

  // What a person has chosen

  async function openEar(): Promise<void> {
    const { ear: choice, language, remoteAllowed } = settings;
    await ears.open({ choice, language, remoteAllowed });
    steerEar();
  }

  async function openVoice(): Promise<void> {
    const { voice: choice, language, remoteAllowed } = settings;
    if (choice === 'off') changeVoice(silentState.voice);
    else await voices.open({ choice, language, remoteAllowed });
  }

  async function apply(next: SpeechSettings): Promise<void> {
    const before = settings;
    settings = next;
    if (!begun) return;
    const isSame = (keys: readonly (keyof SpeechSettings)[]): boolean => keys.every((key) => before[key] === next[key]);
    const voiceStays = isSame(['language', 'voice', 'remoteAllowed']);
    const earStays = isSame(['language', 'ear', 'remoteAllowed']) && before.way !== 'off';
    if (!voiceStays) silence();
    if (!isSame(['way'])) ears.rest();
    await Promise.all([voiceStays ? null : openVoice(), earStays || next.way === 'off' ? null : openEar()]);
    steerEar();
  }

  return {
    get state() {
      return state;
    },
    get settings() {
      return settings;
    },
    async begin() {
      begun = true;
      // The first of these must be called before anything is waited for, while the tap still counts.
      const [awake] = await Promise.all([deps.wakeSound(), openVoice(), settings.way === 'off' ? null : openEar()]);
      if (!awake) changeVoice({ fault: 'sound-blocked' });
    },
    apply,
    say,
    cancel: silence,
    play(name) {
      const now = clock.now();
      guard.sounds(now, now + earconLengths[name]);
      deps.earcons.play(name, settings.volume);
    },
    listen(next) {
      if (next?.grammar.state !== listening?.grammar.state) {
        turn++;
        turnBegan = clock.now();
      }
      listening = next;
      steerEar();
    },
    press() {
      cancelRelease();
      if (held) return;
      held = true;
      if (!listensByKey()) return;
      silence();
      steerEar();
    },
    release() {
      if (!held) return;
      cancelRelease();
      cancelRelease = clock.after(releaseTail, () => {
        held = false;
        if (!listensByKey()) return;
        ears.finish();
        showEar();
      });
    },
    onStateChange: (listener) => subscribe(stateListeners, listener),
    onHeard: (listener) => subscribe(heardListeners, listener),
    onRejected: (listener) => subscribe(rejectedListeners, listener),
    onTrouble: (listener) => subscribe(troubleListeners, listener),
    tellSurroundings({ tooLoud }) {
      if (tooLoud === state.ear.tooLoud) return;
      changeEar({ tooLoud });
      if (tooLoud) trouble({ kind: 'too-loud' });
    },
    tellVoiceProgress(share) {
      changeVoice({ progress: share < 1 ? share : null });
    },
    dispose() {
      cancelRelease();
      stopSpeech();
      listening = null;
      ears.rest();
      ears.keepOpen(false);
      for (const listeners of [stateListeners, heardListeners, rejectedListeners, troubleListeners]) listeners.clear();
    },
  };
}

function subscribe<L>(listeners: Set<L>, listener: L): Cancel {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}
