#!/usr/bin/env bash
# Makes an authority of your own and a certificate for this computer's address, so that a phone in the workshop's network gets the
# microphone and keeps the app for work without a network: bash phone/certificate.sh 192.168.1.20 [NAME…]
# Whoever has authority.key can pretend to be any site to a phone that trusts it: it is thrown away at once, so make a new pair to renew.
set -euo pipefail
[ $# -ge 1 ] || { echo "usage: bash phone/certificate.sh ADDRESS-OR-NAME…" >&2; exit 2; }
folder=certificates
mkdir -p "$folder"
names=""
for name in "$@" localhost 127.0.0.1; do
  if [[ $name =~ ^[0-9.]+$|: ]]; then kind=IP; else kind=DNS; fi
  names="${names:+$names,}$kind:$name"
done
key=$(mktemp)
trap 'rm -f "$key" "$folder/here.csr"' EXIT
openssl req -x509 -newkey rsa:2048 -nodes -keyout "$key" -out "$folder/authority.pem" -days 397 -subj "/CN=Undertray on $1" \
  -addext "basicConstraints=critical,CA:TRUE,pathlen:0" -addext "keyUsage=critical,keyCertSign" 2>/dev/null
openssl req -newkey rsa:2048 -nodes -keyout "$folder/here.key" -out "$folder/here.csr" -subj "/CN=$1" 2>/dev/null
openssl x509 -req -in "$folder/here.csr" -CA "$folder/authority.pem" -CAkey "$key" -CAcreateserial -out "$folder/here.pem" -days 397 \
  -extfile <(printf 'subjectAltName=%s\nbasicConstraints=CA:FALSE\nkeyUsage=digitalSignature,keyEncipherment\nextendedKeyUsage=serverAuth\n' "$names") 2>/dev/null
rm -f "$folder/authority.srl"
chmod 600 "$folder/here.key"
echo "Install $folder/authority.pem on the phone, then:"
echo "UNDERTRAY_CERTIFICATE=$folder/here.pem UNDERTRAY_KEY=$folder/here.key npm start -- --host"
