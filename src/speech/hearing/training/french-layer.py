"""Learns a last layer for another language: python3 french-layer.py SETS OUT.json PASSES.

SETS: names, parted by commas, of pairs feat-NAME.json ({"width", "meta": [{"n" frames, "phones": for each word its pronunciations}]}) and
feat-NAME.bin (float32 columns of EarStream.beforeHead, one after the other). head.json holds the network's own last layer
({"w", "b", "rows"}), whose last row, the chance of speech, is kept.
"""
import json,numpy as np,sys,time
sets=sys.argv[1].split(','); out=sys.argv[2]; passes=int(sys.argv[3]); 
PH='SIL aa ai an au bb ch dd ee ei eu ff gg gn ii in jj kk ll mm nn oe on oo ou pp rr ss tt un uu uy vv ww yy zz'.split()
# output 0 is "nothing new", then the phones without SIL
idx={p:i for i,p in enumerate(PH)}
X=[];Y=[];V=[]
for s in sets:
    m=json.load(open(f'feat-{s}.json')); W=m['width']; d=np.fromfile(f'feat-{s}.bin',np.float32).reshape(-1,W); at=0
    for e in m['meta']:
        x=d[at:at+e['n']]; at+=e['n']
        X.append(x); Y.append([[ [idx[q] for q in p.split()] for p in w] for w in e['phones']]); V.append(e['voice'])
O=len(PH); rng=np.random.default_rng(1)
mu=np.concatenate(X).mean(0); sd=np.concatenate(X).std(0)+1e-3
Wt=np.zeros((W,O)); b=np.zeros(O); b[0]=2
def lse(a,b): return np.logaddexp(a,b)
def ctc(lp,ph):
    st=[0]
    for p in ph: st+=[p,0]
    st=np.array(st); S=len(st); T=len(lp); L=lp[:,st]
    skip=np.zeros(S,bool); skip[2:]=(st[2:]!=0)&(st[2:]!=st[:-2])
    NI=-1e30
    a=np.full((T,S),NI); a[0,0]=L[0,0]; 
    if S>1:a[0,1]=L[0,1]
    for t in range(1,T):
        p=a[t-1]; q=p.copy(); q[1:]=lse(q[1:],p[:-1]); q[2:]=np.where(skip[2:],lse(q[2:],p[:-2]),q[2:]); a[t]=q+L[t]
    z=np.full((T,S),NI); z[-1,-1]=0; 
    if S>1:z[-1,-2]=0
    for t in range(T-2,-1,-1):
        p=z[t+1]+L[t+1]; q=p.copy(); q[:-1]=lse(q[:-1],p[1:]); q[:-2]=np.where(skip[2:],lse(q[:-2],p[2:]),q[:-2]); z[t]=q
    tot=lse(a[-1,-1],a[-1,-2]) if S>1 else a[-1,-1]
    g=np.exp(np.minimum(a+z-tot,0)); sh=np.zeros((T,O)); np.add.at(sh.T,st,g.T)
    return -tot,sh
def logp(x):
    o=((x-mu)/sd)@Wt+b; o-=o.max(1,keepdims=True); return o-np.log(np.exp(o).sum(1,keepdims=True))
def pick(first):
    return [p for w in first for p in w]
ways=[[w[0] for w in y] for y in Y]
m1=np.zeros((W+1,O)); m2=np.zeros((W+1,O)); k=0; t0=time.time()
for ep in range(passes):
    order=rng.permutation(len(X)); cost=0; n=0; lr=0.02*(0.5*(1+np.cos(np.pi*ep/passes)))+0.0005
    for s in range(0,len(order),8):
        G=np.zeros((W+1,O)); fr=0
        for i in order[s:s+8]:
            lp=logp(X[i])
            if ep>=2 and ep%2==0:
                # the likeliest pronunciation, word by word
                base=[w for w in ways[i]]
                c0,_=ctc(lp,pick(base))
                for j,w in enumerate(Y[i]):
                    for alt in w[:4]:
                        if alt is base[j]: continue
                        tr=base[:j]+[alt]+base[j+1:]; c1,_=ctc(lp,pick(tr))
                        if c1<c0: base,c0=tr,c1
                ways[i]=base
            ph=pick(ways[i])
            if len(ph)*1.2>len(lp): continue
            c,sh=ctc(lp,ph); 
            if not np.isfinite(c) or c>1e6: continue
            e=np.exp(lp)-sh; xs=(X[i]-mu)/sd; G[:W]+=xs.T@e; G[W]+=e.sum(0); cost+=c; n+=len(ph); fr+=len(lp)
        G/=max(1,fr); G[:W]+=1e-4*Wt; k+=1
        m1=.9*m1+.1*G; m2=.999*m2+.001*G*G; st=lr*(m1/(1-.9**k))/(np.sqrt(m2/(1-.999**k))+1e-8)
        Wt-=st[:W]; b-=st[W]
    print(ep,round(cost/max(n,1),3),round(time.time()-t0),flush=True)
h=json.load(open('head.json')); vw=np.array(h['w']).reshape(h['rows'],W)[-1]; vb=h['b'][-1]
w2=(Wt/sd[:,None]).T; b2=b-(mu/sd)@Wt
json.dump({'phones':PH[1:],'w':np.vstack([w2,vw]).round(5).ravel().tolist(),'b':np.append(b2,vb).round(5).tolist(),'rows':O+1,'width':W},open(out,'w'))
