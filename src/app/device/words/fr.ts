import { typesetWords } from '../../words/typeset-words.ts';
import type { DeviceWords } from './en.ts';

/** What the panel about this device says in French. */
export const fr: DeviceWords = typesetWords<DeviceWords>({
  title: 'Cet appareil',
  offline: {
    looking: 'On regarde ce qui est déjà sur cet appareil…',
    insecure:
      'Cette page est venue par une adresse réseau sans certificat : le navigateur ne donne pas le microphone et ne garde pas la page. Le README dit comment obtenir un certificat.',
    unsupported: 'Ce navigateur ne sait pas garder la page pour travailler sans réseau.',
    fetching:
      'Chargement de la voix, de l’oreille et des sons, environ 35 Mo, pour que tout marche sans réseau. Vous pouvez commencer en attendant.',
    ready: 'Prêt à travailler sans réseau : voix, oreille et procédures sont sur cet appareil.',
    failed: 'Tout n’a pas pu être chargé. Ce qui est là marche ; pour le reste, il faut le réseau.',
  },
  again: 'Essayer encore',
  update: 'Une version plus récente est prête. Elle n’est prise que si vous le dites.',
  updateWaits: 'Un travail est ouvert dans un onglet. Finissez-le ou quittez-le, puis prenez la nouvelle version.',
  takeUpdate: 'Prendre la nouvelle version',
  storage: {
    title: 'Stockage',
    kept: 'Les relevés sont gardés sur cet appareil et protégés de l’effacement.',
    notKept: 'Les relevés sont gardés sur cet appareil, mais le navigateur peut les effacer quand la place manque. Exportez ce qui compte.',
    ask: 'Demander au navigateur de les protéger',
    refused: 'Le navigateur n’a pas accepté. Il le fait souvent quand l’application sert davantage, ou est installée.',
    room: (size) => `Place restante : ${size}.`,
    unknownRoom: 'Ce navigateur ne dit pas combien de place il reste.',
    low: 'C’est peu. Exportez les travaux finis et supprimez-en avant que le relevé soit en danger.',
  },
  phone: 'L’ouvrir sur un téléphone',
  phoneHow: 'Visez le code avec l’appareil photo du téléphone. Le téléphone doit être sur le même réseau.',
  phoneLocal:
    'Cette page a été ouverte depuis cet appareil même, et aucun téléphone ne peut atteindre cette adresse. Lancez « npm start -- --host » : le code pour le téléphone sera ici et dans le terminal.',
  phoneSecure:
    'En http simple, le téléphone ne donne pas le microphone et ne garde rien pour travailler sans réseau : voir « On a phone » dans le README.',
  codeOf: (address) => `Code de ${address}`,
});
