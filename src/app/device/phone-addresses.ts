/** Where `npm start -- --host` tells under which addresses the network reaches it (vite.config.ts). */
const told = './phone.json';

const onlyHere = ['localhost', '127.0.0.1', '[::1]'];

/** Addresses under which a phone in the same network finds this page; none when it is served to this device only. */
export async function phoneAddresses(): Promise<readonly string[]> {
  const listed = await fetch(told)
    .then(async (response) => (response.ok ? ((await response.json()) as unknown) : []))
    .catch(() => []);
  const served = Array.isArray(listed) ? listed.filter((one): one is string => typeof one === 'string' && URL.canParse(one)) : [];
  if (served.length > 0) return served;
  return onlyHere.includes(location.hostname) ? [] : [location.origin + location.pathname];
}
