import { sentences } from '../compose.ts';
import type { FailureCode, Spoken } from '../lines.ts';

/** What is wrong, and how to go on. */
const failures: Readonly<Record<FailureCode, string>> = {
  'not-stored-disk-full': "Non enregistré : l'appareil est plein. Faites de la place, puis recommencez.",
  'not-stored-blocked': 'Non enregistré : le navigateur bloque le stockage. Autorisez-le, puis recommencez.',
  'not-stored-newer-version': 'Non enregistré : une version plus récente a écrit ce journal. Rechargez la page.',
  'not-stored-other-tab': 'Non enregistré : ce travail est ouvert dans un autre onglet. Continuez là-bas.',
  'not-stored-refused': "Non enregistré : c'est trop long. Faites plus court, puis recommencez.",
  'storage-evicted': 'Le navigateur avait effacé le journal. Il est de nouveau enregistré. Exportez-le bientôt.',
  'record-corrupt': 'Une partie de ce journal est illisible. Elle est gardée telle quelle. Exportez-la avant de continuer.',
  'no-microphone': 'Pas de microphone. Utilisez les boutons, les touches ou la pédale.',
  'microphone-denied': "Le microphone n'est pas autorisé. Autorisez-le dans le navigateur, ou utilisez les boutons.",
  'no-recogniser': 'La parole ne peut pas être reconnue ici. Utilisez les boutons, les touches ou la pédale.',
  'no-voice': 'Aucune voix disponible. Lisez les sous-titres.',
  'network-lost': 'Le réseau est coupé. Le travail continue sans lui.',
  'switched-to-local-ear': "L'écoute se fait maintenant sur l'appareil.",
  'switched-to-local-voice': "La voix est maintenant celle de l'appareil.",
  'too-loud': 'Trop de bruit ici. Rapprochez-vous du téléphone, ou utilisez les boutons.',
  'battery-low': "La batterie est faible. Branchez l'appareil.",
  'clock-changed': "L'heure a été changée. Les minuteurs suivent le temps écoulé.",
  slept: "L'appareil était en veille. Vérifiez les minuteurs avant de continuer.",
  'no-camera': 'Pas de caméra.',
  'camera-denied': "La caméra n'est pas autorisée. Autorisez-la dans le navigateur.",
  'no-dictation': "La parole ne peut pas être écrite ici. L'enregistrement est gardé.",
  'note-empty': "Rien n'a été enregistré. Redites-le, ou écrivez-le.",
  'note-too-large': 'Note non gardée : elle est trop grande. Faites plus court.',
  'notes-full': 'Note non gardée : les notes de ce travail prennent trop de place.',
  'note-disk-full': "Note non gardée : l'appareil est presque plein. Le travail, lui, reste enregistré.",
  'storage-low': "Il reste peu de place sur l'appareil. Exportez les travaux finis et faites de la place.",
};

export function failureWords(code: FailureCode): Spoken {
  return sentences(failures[code]);
}
