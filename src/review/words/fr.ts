import { figuresWith, partsOfDuration } from '../wording.ts';
import type { ReviewWords } from './en.ts';

/** Groups of three are parted by a narrow space at which no line is broken. */
const { whole, number, trimmed, duration, clock, percent } = figuresWith(',', '\u202f', 'inconnu');

/** Zero and one take the singular. */
const many = (count: number, one: string, several = `${one}s`): string => `${whole(count)} ${count < 2 ? one : several}`;

const listed = (items: readonly string[]): string =>
  items.length <= 1 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} et ${items.at(-1) ?? ''}`;

const longerOrShorter = (ratio: number): string => (ratio >= 1 ? `${percent(ratio - 1)} de plus` : `${percent(1 - ratio)} de moins`);

function chance(p: number): string {
  if (p < 0.001) return 'moins d’une fois sur 1\u202f000';
  if (p < 0.01) return `environ une fois sur ${whole(Math.round(1 / p / 10) * 10)}`;
  if (p < 0.2) return `environ une fois sur ${Math.round(1 / p)}`;
  return `environ ${Math.round(p * 100)} fois sur 100`;
}

function spokenDuration(seconds: number): string {
  const parts = partsOfDuration(seconds);
  const said = [many(parts.hours, 'heure'), many(parts.minutes, 'minute'), many(parts.seconds, 'seconde')].filter(
    (part) => !part.startsWith('0 '),
  );
  return said.length === 0 ? 'aucun temps' : said.join(' ');
}

const questions: Readonly<Record<string, string>> = {
  torque: 'couple',
  socket: 'douille',
  'how-many': 'combien',
  'how-many-left': 'combien encore',
  where: 'où',
  why: 'pourquoi',
  caution: 'mises en garde',
  tools: 'outils',
  'which-step': 'quelle étape',
  'which-next': 'laquelle ensuite',
  'time-left': 'temps restant',
  help: 'aide',
};

const reasons: Readonly<Record<string, string>> = {
  'no-part': 'pas la pièce',
  'no-tool': 'pas l’outil',
  'not-fitted': 'non monté',
  'cannot-reach': 'inaccessible',
  damaged: 'abîmé',
  'told-to': 'sur consigne',
  'do-later': 'à faire plus tard',
  other: 'autre',
};

export const fr: ReviewWords = {
  whole,
  number,
  trimmed,
  duration,
  clock,
  percent,
  listed,
  longerOrShorter,
  runs: (n) => many(n, 'passage'),
  people: (n) => many(n, 'personne'),
  times: (n) => `${whole(n)} fois`,
  quoted: (text) => `«\u00a0${text}\u00a0»`,
  nobody: 'sans nom',
  noGroup: 'sans groupe',
  question: (intent) => questions[intent] ?? intent.replaceAll('-', ' '),
  reason: (reason) => reasons[reason] ?? reason,
  ending: { signed: 'signé', 'left open': 'laissé ouvert', 'not finished': 'inachevé' },
  how: { done: 'faite', skipped: 'sautée', 'passed over': 'laissée de côté', 'not finished': 'inachevée' },
  mark: {
    asked: 'question',
    repeat: 'répétition demandée',
    misheard: 'mal entendu',
    refused: 'refusé',
    note: 'note',
    undone: 'annulé',
    back: 'regard en arrière',
    stopped: 'stop',
    'hold failed': 'point d’arrêt non passé',
    'hold passed': 'point d’arrêt passé',
    fastener: 'fixation',
    'left out': 'laissée de côté',
    skipped: 'sautée',
    restart: 'l’application a redémarré',
  },
  lineFault: {
    'not-json': 'contenu illisible, écarté',
    'too-long': 'trop long pour un événement, écarté',
    'wrong-shape': 'pas un événement, écarté',
    'other-version': 'autre version du format, écarté',
    'unknown-event': 'sorte inconnue de cette version ; seul le temps sert',
    duplicate: 'déjà lu, écarté',
    forked: 'autre événement sous le même numéro ; le premier sert',
    changed: 'modifié après l’écriture (l’empreinte ne correspond pas) ; il sert et le passage est marqué',
    'too-many-names': 'un nom de trop, écarté',
  },
  lineFaultSentence: (n, fault) => `${many(n, 'ligne')} : ${fault}.`,
  lines: (n) => many(n, 'ligne'),
  eventsMissing: (n) => `${many(n, 'événement manque', 'événements manquent')} au milieu ou au début de passages.`,
  runsMarked: (n) =>
    `${many(n, 'passage est marqué', 'passages sont marqués')} pour cela dans la liste des passages ; ce qui est lisible sert.`,
  runFault: {
    missing: 'des lignes manquent',
    unlinked: 'une ligne ne suit pas la précédente',
    forked: 'deux lignes portent le même numéro',
    clock: 'une horloge a reculé',
    changed: 'une ligne a été modifiée',
  },
  outlierRule:
    'Un temps est atypique quand son logarithme s’écarte des quartiles de plus d’une fois et demie l’écart interquartile ; on n’en juge qu’à partir de huit temps.',

  overview: {
    noRun: 'Aucun passage ne répond à ces filtres.',
    fewSigned: (signed) =>
      `Seulement ${many(signed, 'passage signé', 'passages signés')} : trop peu pour un intervalle autour d’une médiane. Prenez tout ceci comme une première impression.`,
    someSigned: (signed) => `${signed} passages signés : les intervalles sont larges. Seule une grande différence peut se voir.`,
    fewEach: (people, few) =>
      `${many(people, 'personne a', 'personnes ont')} moins de ${few} passages signés : rien de sûr ne peut en être dit une à une.`,
    leftOut: (runs) => `${many(runs, 'passage écarté', 'passages écartés')} par vous.`,
    noTime: 'Pas encore de temps passé sur des étapes.',
    time: (share, steps) =>
      `${percent(share)} de tout le temps de travail ${steps.length < 2 ? 'va à une étape' : `va à ${steps.length} étapes`} : ${listed(steps)}.`,
    nobodyStuck: 'Personne ne se distingue à aucune étape au-delà de son propre rythme.',
    stuck: (people, steps) =>
      `${many(people, 'personne est lente', 'personnes sont lentes')} à ${many(steps, 'étape')}, au-delà ${people < 2 ? 'de son' : 'de leur'} rythme et de la longueur de l’étape, dans ${people < 2 ? 'ses' : 'leurs'} derniers passages.`,
    oneMonth: 'Un mois ou moins : trop court pour dire si cela s’améliore.',
    trend: (last, first, ratio) =>
      `Un passage de ${last} a pris ${longerOrShorter(ratio)} qu’un passage de ${first}, à procédure et version égales.`,
    even: (last, first) => `Un passage de ${last} a pris aussi longtemps qu’un passage de ${first}, à procédure et version égales.`,
    tooFewInMonth: 'L’un des deux mois a trop peu de passages pour en dire plus.',
    mayBeChance: 'Les intervalles des deux mois se recouvrent : ce peut être le hasard.',
    rate: (rate, people) =>
      `À chaque doublement des passages de quelqu’un, le temps descend à ${percent(rate)} (milieu de ${many(people, 'personne')}).`,
    nothing: 'Rien au-delà de ce que ferait le hasard.',
  },

  finding: {
    hold: (who, step, left, of, othersLeft, othersOf) =>
      `${who} a passé outre au point d’arrêt de ${step} dans ${whole(left)} de ${many(of, 'passage')}.${
        othersOf === 0
          ? ''
          : othersLeft === 0
            ? ` Dans les ${othersOf} passages des autres, jamais.`
            : ` Dans les ${othersOf} passages des autres, ${othersLeft} fois.`
      }`,
    hard: (step, trouble, ratio, spread) =>
      `${step} est difficile : ${trimmed(trouble, 1)} questions, répétitions et regards en arrière par passage, ${trimmed(ratio, 1)} fois ce que sa quantité de travail laisse attendre.${
        spread === null ? '' : ` Elle explique ${percent(spread)} de la dispersion des totaux.`
      }`,
    stuck: (who, step, median, runs, expected) =>
      `${who} bute sur ${step} : ${duration(median)} dans ${runs < 2 ? 'le dernier passage' : `les ${runs} derniers passages`}, là où son propre rythme donnerait ${duration(expected)}.`,
    group: (slow, quick, ratio) =>
      `${slow ?? 'Sans groupe'} prend ${longerOrShorter(ratio.ratio)} (${percent(ratio.low - 1)} à ${percent(ratio.high - 1)}) que ${quick ?? 'sans groupe'}, personne par personne. Cela ne dit pas pourquoi.`,
    learner: (who, isFast, rate, middle) =>
      `${who} apprend bien plus ${isFast ? 'vite' : 'lentement'} que les autres : chaque doublement des passages amène le temps à ${percent(rate.rate)} (${percent(rate.low)} à ${percent(rate.high)}), contre ${percent(middle)} au milieu.`,
  },

  groupSentence: (one, other, people, ratio, superiority, p, isExact) => {
    const size =
      ratio === null
        ? ''
        : `, typiquement ${longerOrShorter(ratio.ratio)} (les données s’accordent avec tout entre ${longerOrShorter(ratio.low)} et ${longerOrShorter(ratio.high)})`;
    const pairs = `de deux personnes prises une dans chaque groupe, celle de ${one ?? 'sans groupe'} prend plus longtemps ${Math.round(superiority * 100)} fois sur 100`;
    const test = `Si les groupes étaient pareils, le hasard seul donnerait une telle différence ${chance(p)} (test de la somme des rangs, ${isExact ? 'exact' : 'approximation normale'}, sur un chiffre par personne)`;
    return `${one ?? 'Sans groupe'} et ${other ?? 'sans groupe'} : ${many(people[0], 'personne')} et ${people[1]}${size} ; ${pairs}. ${test}. Cela ne dit pas pourquoi.`;
  },

  aim: {
    notInSight: (aim) => `Sur cette courbe, l’objectif de ${duration(aim)} n’est pas en vue.`,
    farOff: (aim) => `Sur cette courbe, l’objectif de ${duration(aim)} est trop loin pour dire quand il vient.`,
    reached: (aim) => `L’objectif de ${duration(aim)} est atteint.`,
    comes: (aim, run, earliest, latest) =>
      `Sur cette courbe, l’objectif de ${duration(aim)} vient au passage ${run} (au plus tôt ${earliest}, ${latest === null ? 'ou bien plus tard' : `au plus tard ${latest}`}).`,
  },

  feedback: {
    fewRuns: (signed) => `${many(signed, 'passage signé', 'passages signés')} jusqu’ici : trop peu pour être sûr de quoi que ce soit ici.`,
    quicker: (ratio) => `Vos derniers passages ont pris ${longerOrShorter(ratio)} que les premiers.`,
    holdsFailed: (count) =>
      `${whole(count)} fois vous avez répondu non à un point d’arrêt et remis les choses en ordre. C’est à cela que servent les points d’arrêt.`,
    sure: (step, median, expected) =>
      `Vous êtes à l’aise à ${step} : ${duration(median)}, là où votre rythme ailleurs donnerait ${duration(expected)}.`,
    asks: (perRun) => `Vous avez posé ${trimmed(perRun, 1)} questions par passage. Continuez à demander en cas de doute.`,
    hold: (step, left, of) =>
      `Vous avez passé outre au point d’arrêt de ${step} dans ${whole(left)} de ${many(of, 'passage')}. Il est là pour la sécurité : répondez-y chaque fois, ou dites pourquoi c’est impossible.`,
    stuck: (step, median, expected) =>
      `${step} vous prend ${duration(median)} ; votre rythme ailleurs donnerait ${duration(expected)}. Faites-la-vous montrer une fois.`,
    nothing: 'Rien ne se distingue. Continuez ainsi.',
    tooFewForCurve: (runs) => `${many(runs, 'passage')} jusqu’ici : trop peu pour une courbe d’apprentissage.`,
    curve: (run, time, rate, low, high) =>
      `Le passage ${run} a pris ${duration(time)}. Chaque doublement des passages amène le temps à ${percent(rate)} (${percent(low)} à ${percent(high)}).${high >= 1 ? ' Ce peut encore être le hasard.' : ''}`,
    spokenHead: (who, runs) => `Retour pour ${who}, d’après ${many(runs, 'passage')}.`,
    goodHead: 'Ce qui va bien.',
    toDoHead: 'Ce qui est à travailler.',
    latestTimes: 'Vos derniers temps.',
    spokenTime: (title, time, run) => `${title} : ${spokenDuration(time)} au passage ${run}.`,
    aloud: (line) =>
      line
        .replace(/«\s?|\s?»/g, '')
        .replace(/(\d)\ss\b/g, '$1 secondes')
        .replace(/(\d)\smin\b/g, '$1 minutes')
        .replace(/(\d)\sh\b/g, '$1 heures')
        .replace(/\s%/g, ' pour cent'),
  },

  table: {
    seconds: (label) => `${label} (s)`,
    csv: { separator: ';', point: ',' },
    yes: 'oui',
    no: 'non',
    step: 'Étape',
    what: 'Quoi',
    runs: 'Passages',
    median: 'Médiane',
    from: 'De',
    to: 'À',
    lowerQuartile: 'Premier quartile',
    upperQuartile: 'Troisième quartile',
    ninetieth: '90e centile',
    deviation: 'Écart type',
    person: 'Personne',
    group: 'Groupe',
    procedure: 'Procédure',
    build: 'Version',
    run: 'Passage',
    day: 'Jour',
    job: 'Travail',
    ended: 'Fin',
    pace: 'Rythme',
    rate: 'Taux',
    aim: 'Objectif',
    ratio: 'Rapport',
    timeAtWork: 'Temps de travail',
    atWork: 'Au travail',
    pauses: 'Pauses',
    waits: 'Attentes',
    questions: 'Questions',
    repeats: 'Répétitions',
    misheard: 'Mal entendus',
    refused: 'Refusés',
    stepBacks: 'Retours',
    undos: 'Annulations',
    stops: 'Stops',
    skips: 'Sautées',
    failedHolds: 'Points d’arrêt non passés',
    leftOut: 'Fixations laissées',
    outliers: 'Atypiques',
    interval:
      'Entre « de » et « à » se trouve la vraie médiane avec une confiance d’au moins 95 % (statistiques d’ordre). Vide : moins de six temps.',
    steps: {
      title: 'Chaque étape : combien elle dure et ce qui s’y passe',
      reference: 'Passage de référence',
      pausesMean: 'Pauses (moyenne)',
      waitsMedian: 'Attentes (médiane)',
      askedFor: 'Demandé',
      timeShare: 'Part du temps',
      spreadShare: 'Part de la dispersion',
      note: 'Temps actif des passages qui ont mené l’étape à bien ; pauses et attentes sont à part.',
      negative: 'Une part négative de la dispersion revient à une étape courte là où le passage entier est long.',
    },
    fasteners: {
      title: 'Chaque fixation : combien elle prend à chaque passe, et si c’était son tour',
      pass: 'Passe',
      position: 'Position',
      tightened: 'Serrée',
      outOfOrder: 'Hors de l’ordre',
      note: (isWritten) =>
        `Le temps court depuis la dernière action qui précède. L’ordre est jugé d’après l’ordre ${isWritten ? 'écrit' : 'habituel'}.`,
    },
    people: {
      title: 'Chaque personne : rythme, apprentissage, questions',
      signed: 'Signés',
      firstPace: 'Rythme au début',
      latestPace: 'Rythme récent',
      learningRate: 'Taux d’apprentissage',
      rateFrom: 'Taux de',
      rateTo: 'Taux à',
      questionsPerRun: 'Questions par passage',
      repeatsPerRun: 'Répétitions par passage',
      misheardPerRun: 'Mal entendus par passage',
      note: 'Rythme : le temps d’un passage rapporté à la médiane de tous les passages choisis de même procédure et version ; 1,2 est un cinquième de plus. Taux d’apprentissage : ce à quoi chaque doublement des passages amène le temps (modèle unitaire, intervalle à 95 %).',
    },
    learning: {
      title: 'La courbe d’apprentissage de chacun',
      first: 'Premier passage sur la courbe',
      aimAtRun: 'Objectif au passage',
      earliest: 'Au plus tôt',
      latest: 'Au plus tard',
      note: 'Modèle unitaire : le temps du passage x est a·x^b, ajusté sur les logarithmes ; le taux 2^b est ce à quoi chaque doublement amène le temps. Vide : trop peu de passages, ou l’objectif n’est pas en vue avant mille.',
    },
    trials: { title: 'Chaque passage derrière les courbes', curve: 'Courbe' },
    heat: {
      title: 'Personne par étape : le temps pris rapporté au temps attendu',
      note: (latest) =>
        `Médianes des ${latest} derniers passages de chacun. 1 est ce que le rythme de la personne et la longueur de l’étape laissent attendre (lissage médian des logarithmes) ; 2 est le double. Vide : moins de trois passages.`,
    },
    stuck: {
      title: 'Qui est lent où, au-delà de son propre rythme',
      expected: 'Attendu',
      questions: 'Questions et répétitions',
      note: (latest) =>
        `Dans les ${latest} derniers passages de chacun. Montré à partir de 1,4 fois l’attendu et de 20 s de plus, et si c’est plus net que ce que tant de comparaisons donneraient par hasard (somme des rangs, fausses découvertes tenues à 5 %).`,
    },
    groups: {
      title: 'Groupe contre groupe, un chiffre par personne',
      people: 'Personnes',
      medianPace: 'Rythme médian',
      against: 'Contre',
      peopleThere: 'Personnes là',
      paceThere: 'Rythme médian là',
      p: 'p, bilatéral',
      test: 'Test',
      longer: 'Plus long, par paires',
      exact: 'somme des rangs, exact',
      normal: 'somme des rangs, approximation normale',
      note: 'Le chiffre d’une personne est le rythme médian de ses passages : les passages d’une même personne ne sont pas indépendants. Une différence ne dit pas d’où elle vient.',
    },
    holds: {
      title: 'Points d’arrêt franchis sans un oui',
      left: 'Laissés',
      of: 'Sur passages',
      othersLeft: 'Laissés par les autres',
      othersOf: 'Sur passages des autres',
      standsOut: 'Se distingue',
      note: 'p est la chance d’en voir autant si la personne était comme les autres (test exact de Fisher, unilatéral). « Se distingue » tient compte du nombre de comparaisons (fausses découvertes tenues à 5 %).',
    },
    fair: {
      title: 'Un temps alloué pour chaque étape, et ce qu’il vaut',
      observed: 'Observés',
      rated: 'Jugés',
      mean: 'Moyenne',
      normal: 'Temps normal',
      fair: 'Temps alloué',
      needed: 'Nécessaires',
      missing: 'Manquants',
      withoutOutliers: 'Atypiques écartés',
      note: 'Observé × allure × majoration. Les passages que personne n’a jugés comptent comme allure normale. Le nombre nécessaire est (z·s / (h·moyenne))², arrondi au-dessus.',
    },
    orders: {
      title: 'Passages d’étape en étape',
      fromWhat: 'De quoi',
      toWhat: 'Vers quoi',
      times: 'Fois',
      kind: 'Sorte',
      kinds: { onward: 'à la suite', ahead: 'en avant, par-dessus une étape', back: 'en arrière', aside: 'à côté' },
      note: 'À la suite : comme écrit. À côté : vers une procédure annexe, ou retour d’une.',
    },
    runList: { title: 'Chaque passage', outlier: 'Atypique', log: 'Journal' },
    months: {
      title: 'Rythme mois par mois',
      month: 'Mois',
      note: 'Rythme : rapporté à la médiane de tous les passages choisis de même procédure et version ; au-dessous de 1, plus rapide.',
    },
    timeline: {
      title: (who, run, procedure, when) => `${who}, passage ${run} de ${procedure}, ${when} : étape par étape`,
      waiting: 'En attente',
      paused: 'En pause',
    },
    marks: { title: 'Ce qui a été dit et fait, dans l’ordre', after: 'Après', words: 'Mots' },
    pair: {
      title: (one, other) => `${one} et ${other} côte à côte, étape par étape`,
      difference: 'Différence',
    },
  },
  personRun: (who, run) => `${who}, passage ${run}`,
};
