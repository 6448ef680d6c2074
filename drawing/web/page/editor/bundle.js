(()=>{var Es=[],rl=[];(()=>{let n="lc,34,7n,7,7b,19,,,,2,,2,,,20,b,1c,l,g,,2t,7,2,6,2,2,,4,z,,u,r,2j,b,1m,9,9,,o,4,,9,,3,,5,17\
,3,1n,9,16,o,,x,1i,3,,i,,7,a,2,t,3,1k,,,7,2,2,2,3,9,,a,2,q,,2,3,1k,,,5,4,2,2,3,3,,u,2,3,,b,3,1k,,,8,,3,,3,k,2,m,6,,3,1k,\
,,7,2,2,2,3,7,3,a,2,u,,1n,5,3,3,,4,9,,14,5,1j,,,7,,3,,4,7,2,b,2,t,3,1k,,,7,,3,,4,7,2,b,2,f,,c,4,1j,2,,7,,3,,4,9,,a,2,t,3\
,1y,,4,6,,,,8,i,2,1p,,,8,c,8,2q,,,a,b,7,21,2,r,,,,,,4,2,1d,k,,2,5,b,,10,9,,2u,b,,6,n,4,4,3,g,4,d,,,3,6,,f,,jj,3,qa,4,s,3\
,t,2,u,2,1s,w,9,,19,3,,,39,2,y,,3a,c,4,c,63,5,1l,a,,,,,2,o,2,,1c,1a,2,c,k,5,1b,h,12,9,c,3,u,d,1k,e,1c,k,48,3,,l,4,,6,,2,\
3,5i,1s,ek,,5f,x,2da,3,3x,,2o,w,fe,6,2x,2,n9w,4,,a,w,2,28,2,7k,,3,,4,,n,5,4,,2b,2,1e,i,q,i,d,,12,8,p,d,18,4,1b,e,10,,1v,\
e,c,,8,2,1a,,1f,,,3,2,2,5,2,,,15,5,5,2,6k,8,,2,fn4,,kh,g,g,g,a6,2,gt,,6a,,45,5,1ae,3,,2,5,4,14,3,4,,4l,2,fx,4,1t,5,8t,2,\
25,6,1y,b,1d,4,3e,3,1h,f,15,,2,2,a,4,19,b,7,,1p,3,10,e,g,2,18,,c,3,1c,e,8,4,,2,2k,c,6,,2,,4d,c,l,4,1j,2,,7,2,2,2,3,9,,a,\
2,2,7,3,5,1v,9,,,2,,,4,,5,,,e,2,2a,i,n,,29,k,6j,7,2,9,r,2,2a,h,2y,d,2t,3,2,a,74,f,6t,6,,2,2,4,,,,2,3x,7,2,7,3,,s,a,14,7,\
,4,8,,9,b,1a,g,5i,8,5j,8,,8,2a,m,,e,3e,6,3,,,2,,7,,,1u,5,,2,,5,9n,4,9,2,,,1c,7,3,5,n,,44l,,6,f,8ug,i,1xc,5,1n,7,t4,,,1j,\
7,4,29,,b,2,f57,2,3mp,1a,2,n,f2,5,3,6,8,8,2,7,u,4,44,3,1iz,1j,4,1e,8,,e,,m,5,,f,11s,7,,h,2,7,,2,,5,2s,,4g,7,af,,1p,4,e4,\
4,72,2,6r,,2,,7,2,5,,d6,7,31,7,240,5".split(",").map(e=>e?parseInt(e,36):1);for(let e=0,t=0;e<n.length;e++)(e%2?rl:Es).push(
t=t+n[e])})();function af(n){if(n<768)return!1;for(let e=0,t=Es.length;;){let i=e+t>>1;if(n<Es[i])t=i;else if(n>=rl[i])e=
i+1;else return!0;if(e==t)return!1}}function il(n){return n>=127462&&n<=127487}var nl=8205;function ol(n,e,t=!0,i=!0){return(t?ll:hf)(n,e,i)}function ll(n,e,t){if(e==n.length)return e;e&&al(n.charCodeAt(
e))&&hl(n.charCodeAt(e-1))&&e--;let i=Ls(n,e);for(e+=sl(i);e<n.length;){let s=Ls(n,e);if(i==nl||s==nl||t&&af(s))e+=sl(s),
i=s;else if(il(s)){let r=0,o=e-2;for(;o>=0&&il(Ls(n,o));)r++,o-=2;if(r%2==0)break;e+=2}else break}return e}function hf(n,e,t){
for(;e>1;){let i=ll(n,e-2,t);if(i<e)return i;e--}return 0}function Ls(n,e){let t=n.charCodeAt(e);if(!hl(t)||e+1==n.length)
return t;let i=n.charCodeAt(e+1);return al(i)?(t-55296<<10)+(i-56320)+65536:t}function al(n){return n>=56320&&n<57344}function hl(n){
return n>=55296&&n<56320}function sl(n){return n<65536?1:2}var P=class n{lineAt(e){if(e<0||e>this.length)throw new RangeError(`Invalid position ${e} in document of length ${this.length}`);
return this.lineInner(e,!1,1,0)}line(e){if(e<1||e>this.lines)throw new RangeError(`Invalid line number ${e} in ${this.lines}\
-line document`);return this.lineInner(e,!0,1,0)}replace(e,t,i){[e,t]=qt(this,e,t);let s=[];return this.decompose(0,e,s,
2),i.length&&i.decompose(0,i.length,s,3),this.decompose(t,this.length,s,1),Wt.from(s,this.length-(t-e)+i.length)}append(e){
return this.replace(this.length,this.length,e)}slice(e,t=this.length){[e,t]=qt(this,e,t);let i=[];return this.decompose(
e,t,i,0),Wt.from(i,t-e)}eq(e){if(e==this)return!0;if(e.length!=this.length||e.lines!=this.lines)return!1;let t=this.scanIdentical(
e,1),i=this.length-this.scanIdentical(e,-1),s=new wt(this),r=new wt(e);for(let o=t,l=t;;){if(s.next(o),r.next(o),o=0,s.lineBreak!=
r.lineBreak||s.done!=r.done||s.value!=r.value)return!1;if(l+=s.value.length,s.done||l>=i)return!0}}iter(e=1){return new wt(
this,e)}iterRange(e,t=this.length){return new on(this,e,t)}iterLines(e,t){let i;if(e==null)i=this.iter();else{t==null&&(t=
this.lines+1);let s=this.line(e).from;i=this.iterRange(s,Math.max(s,t==this.lines+1?this.length:t<=1?0:this.line(t-1).to))}
return new ln(i)}toString(){return this.sliceString(0)}toJSON(){let e=[];return this.flatten(e),e}constructor(){}static of(e){
if(e.length==0)throw new RangeError("A document must have at least one line");return e.length==1&&!e[0]?n.empty:e.length<=
32?new pe(e):Wt.from(pe.split(e,[]))}},pe=class n extends P{constructor(e,t=cf(e)){super(),this.text=e,this.length=t}get lines(){
return this.text.length}get children(){return null}lineInner(e,t,i,s){for(let r=0;;r++){let o=this.text[r],l=s+o.length;
if((t?i:l)>=e)return new Ps(s,l,i,o);s=l+1,i++}}decompose(e,t,i,s){let r=e<=0&&t>=this.length?this:new n(cl(this.text,e,
t),Math.min(t,this.length)-Math.max(0,e));if(s&1){let o=i.pop(),l=rn(r.text,o.text.slice(),0,r.length);if(l.length<=32)i.
push(new n(l,o.length+r.length));else{let a=l.length>>1;i.push(new n(l.slice(0,a)),new n(l.slice(a)))}}else i.push(r)}replace(e,t,i){
if(!(i instanceof n))return super.replace(e,t,i);[e,t]=qt(this,e,t);let s=rn(this.text,rn(i.text,cl(this.text,0,e)),t),r=this.
length+i.length-(t-e);return s.length<=32?new n(s,r):Wt.from(n.split(s,[]),r)}sliceString(e,t=this.length,i=`
`){[e,t]=qt(this,e,t);let s="";for(let r=0,o=0;r<=t&&o<this.text.length;o++){let l=this.text[o],a=r+l.length;r>e&&o&&(s+=
i),e<a&&t>r&&(s+=l.slice(Math.max(0,e-r),t-r)),r=a+1}return s}flatten(e){for(let t of this.text)e.push(t)}scanIdentical(){
return 0}static split(e,t){let i=[],s=-1;for(let r of e)i.push(r),s+=r.length+1,i.length==32&&(t.push(new n(i,s)),i=[],s=
-1);return s>-1&&t.push(new n(i,s)),t}},Wt=class n extends P{constructor(e,t){super(),this.children=e,this.length=t,this.
lines=0;for(let i of e)this.lines+=i.lines}lineInner(e,t,i,s){for(let r=0;;r++){let o=this.children[r],l=s+o.length,a=i+
o.lines-1;if((t?a:l)>=e)return o.lineInner(e,t,i,s);s=l+1,i=a+1}}decompose(e,t,i,s){for(let r=0,o=0;o<=t&&r<this.children.
length;r++){let l=this.children[r],a=o+l.length;if(e<=a&&t>=o){let h=s&((o<=e?1:0)|(a>=t?2:0));o>=e&&a<=t&&!h?i.push(l):
l.decompose(e-o,t-o,i,h)}o=a+1}}replace(e,t,i){if([e,t]=qt(this,e,t),i.lines<this.lines)for(let s=0,r=0;s<this.children.
length;s++){let o=this.children[s],l=r+o.length;if(e>=r&&t<=l){let a=o.replace(e-r,t-r,i),h=this.lines-o.lines+a.lines;if(a.
lines<h>>4&&a.lines>h>>6){let c=this.children.slice();return c[s]=a,new n(c,this.length-(t-e)+i.length)}return super.replace(
r,l,a)}r=l+1}return super.replace(e,t,i)}sliceString(e,t=this.length,i=`
`){[e,t]=qt(this,e,t);let s="";for(let r=0,o=0;r<this.children.length&&o<=t;r++){let l=this.children[r],a=o+l.length;o>e&&
r&&(s+=i),e<a&&t>o&&(s+=l.sliceString(e-o,t-o,i)),o=a+1}return s}flatten(e){for(let t of this.children)t.flatten(e)}scanIdentical(e,t){
if(!(e instanceof n))return 0;let i=0,[s,r,o,l]=t>0?[0,0,this.children.length,e.children.length]:[this.children.length-1,
e.children.length-1,-1,-1];for(;;s+=t,r+=t){if(s==o||r==l)return i;let a=this.children[s],h=e.children[r];if(a!=h)return i+
a.scanIdentical(h,t);i+=a.length+1}}static from(e,t=e.reduce((i,s)=>i+s.length+1,-1)){let i=0;for(let d of e)i+=d.lines;
if(i<32){let d=[];for(let p of e)p.flatten(d);return new pe(d,t)}let s=Math.max(32,i>>5),r=s<<1,o=s>>1,l=[],a=0,h=-1,c=[];
function f(d){let p;if(d.lines>r&&d instanceof n)for(let g of d.children)f(g);else d.lines>o&&(a>o||!a)?(u(),l.push(d)):
d instanceof pe&&a&&(p=c[c.length-1])instanceof pe&&d.lines+p.lines<=32?(a+=d.lines,h+=d.length+1,c[c.length-1]=new pe(p.
text.concat(d.text),p.length+1+d.length)):(a+d.lines>s&&u(),a+=d.lines,h+=d.length+1,c.push(d))}function u(){a!=0&&(l.push(
c.length==1?c[0]:n.from(c,h)),h=-1,a=c.length=0)}for(let d of e)f(d);return u(),l.length==1?l[0]:new n(l,t)}};P.empty=new pe(
[""],0);function cf(n){let e=-1;for(let t of n)e+=t.length+1;return e}function rn(n,e,t=0,i=1e9){for(let s=0,r=0,o=!0;r<
n.length&&s<=i;r++){let l=n[r],a=s+l.length;a>=t&&(a>i&&(l=l.slice(0,i-s)),s<t&&(l=l.slice(t-s)),o?(e[e.length-1]+=l,o=!1):
e.push(l)),s=a+1}return e}function cl(n,e,t){return rn(n,[""],e,t)}var wt=class{constructor(e,t=1){this.dir=t,this.done=
!1,this.lineBreak=!1,this.value="",this.nodes=[e],this.offsets=[t>0?1:(e instanceof pe?e.text.length:e.children.length)<<
1]}nextInner(e,t){for(this.done=this.lineBreak=!1;;){let i=this.nodes.length-1,s=this.nodes[i],r=this.offsets[i],o=r>>1,
l=s instanceof pe?s.text.length:s.children.length;if(o==(t>0?l:0)){if(i==0)return this.done=!0,this.value="",this;t>0&&this.
offsets[i-1]++,this.nodes.pop(),this.offsets.pop()}else if((r&1)==(t>0?0:1)){if(this.offsets[i]+=t,e==0)return this.lineBreak=
!0,this.value=`
`,this;e--}else if(s instanceof pe){let a=s.text[o+(t<0?-1:0)];if(this.offsets[i]+=t,a.length>Math.max(0,e))return this.
value=e==0?a:t>0?a.slice(e):a.slice(0,a.length-e),this;e-=a.length}else{let a=s.children[o+(t<0?-1:0)];e>a.length?(e-=a.
length,this.offsets[i]+=t):(t<0&&this.offsets[i]--,this.nodes.push(a),this.offsets.push(t>0?1:(a instanceof pe?a.text.length:
a.children.length)<<1))}}}next(e=0){return e<0&&(this.nextInner(-e,-this.dir),e=this.value.length),this.nextInner(e,this.
dir)}},on=class{constructor(e,t,i){this.value="",this.done=!1,this.cursor=new wt(e,t>i?-1:1),this.pos=t>i?e.length:0,this.
from=Math.min(t,i),this.to=Math.max(t,i)}nextInner(e,t){if(t<0?this.pos<=this.from:this.pos>=this.to)return this.value="",
this.done=!0,this;e+=Math.max(0,t<0?this.pos-this.to:this.from-this.pos);let i=t<0?this.pos-this.from:this.to-this.pos;e>
i&&(e=i),i-=e;let{value:s}=this.cursor.next(e);return this.pos+=(s.length+e)*t,this.value=s.length<=i?s:t<0?s.slice(s.length-
i):s.slice(0,i),this.done=!this.value,this}next(e=0){return e<0?e=Math.max(e,this.from-this.pos):e>0&&(e=Math.min(e,this.
to-this.pos)),this.nextInner(e,this.cursor.dir)}get lineBreak(){return this.cursor.lineBreak&&this.value!=""}},ln=class{constructor(e){
this.inner=e,this.afterBreak=!0,this.value="",this.done=!1}next(e=0){let{done:t,lineBreak:i,value:s}=this.inner.next(e);
return t&&this.afterBreak?(this.value="",this.afterBreak=!1):t?(this.done=!0,this.value=""):i?this.afterBreak?this.value=
"":(this.afterBreak=!0,this.next()):(this.value=s,this.afterBreak=!1),this}get lineBreak(){return!1}};typeof Symbol<"u"&&
(P.prototype[Symbol.iterator]=function(){return this.iter()},wt.prototype[Symbol.iterator]=on.prototype[Symbol.iterator]=
ln.prototype[Symbol.iterator]=function(){return this});var Ps=class{constructor(e,t,i,s){this.from=e,this.to=t,this.number=
i,this.text=s}get length(){return this.to-this.from}};function qt(n,e,t){return e=Math.max(0,Math.min(n.length,e)),[e,Math.
max(e,Math.min(n.length,t))]}function Q(n,e,t=!0,i=!0){return ol(n,e,t,i)}function ff(n){return n>=56320&&n<57344}function uf(n){
return n>=55296&&n<56320}function un(n,e){let t=n.charCodeAt(e);if(!uf(t)||e+1==n.length)return t;let i=n.charCodeAt(e+1);
return ff(i)?(t-55296<<10)+(i-56320)+65536:t}function gl(n){return n<=65535?String.fromCharCode(n):(n-=65536,String.fromCharCode(
(n>>10)+55296,(n&1023)+56320))}function dn(n){return n<65536?1:2}var Is=/\r\n?|\n/,le=(function(n){return n[n.Simple=0]=
"Simple",n[n.TrackDel=1]="TrackDel",n[n.TrackBefore=2]="TrackBefore",n[n.TrackAfter=3]="TrackAfter",n})(le||(le={})),Xe=class n{constructor(e){
this.sections=e}get length(){let e=0;for(let t=0;t<this.sections.length;t+=2)e+=this.sections[t];return e}get newLength(){
let e=0;for(let t=0;t<this.sections.length;t+=2){let i=this.sections[t+1];e+=i<0?this.sections[t]:i}return e}get empty(){
return this.sections.length==0||this.sections.length==2&&this.sections[1]<0}iterGaps(e){for(let t=0,i=0,s=0;t<this.sections.
length;){let r=this.sections[t++],o=this.sections[t++];o<0?(e(i,s,r),s+=r):s+=o,i+=r}}iterChangedRanges(e,t=!1){Ns(this,
e,t)}get invertedDesc(){let e=[];for(let t=0;t<this.sections.length;){let i=this.sections[t++],s=this.sections[t++];s<0?
e.push(i,s):e.push(s,i)}return new n(e)}composeDesc(e){return this.empty?e:e.empty?this:ml(this,e)}mapDesc(e,t=!1){return e.
empty?this:Fs(this,e,t)}mapPos(e,t=-1,i=le.Simple){let s=0,r=0;for(let o=0;o<this.sections.length;){let l=this.sections[o++],
a=this.sections[o++],h=s+l;if(a<0){if(h>e)return r+(e-s);r+=l}else{if(i!=le.Simple&&h>=e&&(i==le.TrackDel&&s<e&&h>e||i==
le.TrackBefore&&s<e||i==le.TrackAfter&&h>e))return null;if(h>e||h==e&&t<0&&!l)return e==s||t<0?r:r+a;r+=a}s=h}if(e>s)throw new RangeError(
`Position ${e} is out of range for changeset of length ${s}`);return r}touchesRange(e,t=e){for(let i=0,s=0;i<this.sections.
length&&s<=t;){let r=this.sections[i++],o=this.sections[i++],l=s+r;if(o>=0&&s<=t&&l>=e)return s<e&&l>t?"cover":!0;s=l}return!1}toString(){
let e="";for(let t=0;t<this.sections.length;){let i=this.sections[t++],s=this.sections[t++];e+=(e?" ":"")+i+(s>=0?":"+s:
"")}return e}toJSON(){return this.sections}static fromJSON(e){if(!Array.isArray(e)||e.length%2||e.some(t=>typeof t!="num\
ber"))throw new RangeError("Invalid JSON representation of ChangeDesc");return new n(e)}static create(e){return new n(e)}},
ae=class n extends Xe{constructor(e,t){super(e),this.inserted=t}apply(e){if(this.length!=e.length)throw new RangeError("\
Applying change set to a document with the wrong length");return Ns(this,(t,i,s,r,o)=>e=e.replace(s,s+(i-t),o),!1),e}mapDesc(e,t=!1){
return Fs(this,e,t,!0)}invert(e){let t=this.sections.slice(),i=[];for(let s=0,r=0;s<t.length;s+=2){let o=t[s],l=t[s+1];if(l>=
0){t[s]=l,t[s+1]=o;let a=s>>1;for(;i.length<a;)i.push(P.empty);i.push(o?e.slice(r,r+o):P.empty)}r+=o}return new n(t,i)}compose(e){
return this.empty?e:e.empty?this:ml(this,e,!0)}map(e,t=!1){return e.empty?this:Fs(this,e,t,!0)}iterChanges(e,t=!1){Ns(this,
e,t)}get desc(){return Xe.create(this.sections)}filter(e){let t=[],i=[],s=[],r=new kt(this);e:for(let o=0,l=0;;){let a=o==
e.length?1e9:e[o++];for(;l<a||l==a&&r.len==0;){if(r.done)break e;let c=Math.min(r.len,a-l);ne(s,c,-1);let f=r.ins==-1?-1:
r.off==0?r.ins:0;ne(t,c,f),f>0&&it(i,t,r.text),r.forward(c),l+=c}let h=e[o++];for(;l<h;){if(r.done)break e;let c=Math.min(
r.len,h-l);ne(t,c,-1),ne(s,c,r.ins==-1?-1:r.off==0?r.ins:0),r.forward(c),l+=c}}return{changes:new n(t,i),filtered:Xe.create(
s)}}toJSON(){let e=[];for(let t=0;t<this.sections.length;t+=2){let i=this.sections[t],s=this.sections[t+1];s<0?e.push(i):
s==0?e.push([i]):e.push([i].concat(this.inserted[t>>1].toJSON()))}return e}static of(e,t,i){let s=[],r=[],o=0,l=null;function a(c=!1){
if(!c&&!s.length)return;o<t&&ne(s,t-o,-1);let f=new n(s,r);l=l?l.compose(f.map(l)):f,s=[],r=[],o=0}function h(c){if(Array.
isArray(c))for(let f of c)h(f);else if(c instanceof n){if(c.length!=t)throw new RangeError(`Mismatched change set length\
 (got ${c.length}, expected ${t})`);a(),l=l?l.compose(c.map(l)):c}else{let{from:f,to:u=f,insert:d}=c;if(f>u||f<0||u>t)throw new RangeError(
`Invalid change range ${f} to ${u} (in doc of length ${t})`);let p=d?typeof d=="string"?P.of(d.split(i||Is)):d:P.empty,g=p.
length;if(f==u&&g==0)return;f<o&&a(),f>o&&ne(s,f-o,-1),ne(s,u-f,g),it(r,s,p),o=u}}return h(e),a(!l),l}static empty(e){return new n(
e?[e,-1]:[],[])}static fromJSON(e){if(!Array.isArray(e))throw new RangeError("Invalid JSON representation of ChangeSet");
let t=[],i=[];for(let s=0;s<e.length;s++){let r=e[s];if(typeof r=="number")t.push(r,-1);else{if(!Array.isArray(r)||typeof r[0]!=
"number"||r.some((o,l)=>l&&typeof o!="string"))throw new RangeError("Invalid JSON representation of ChangeSet");if(r.length==
1)t.push(r[0],0);else{for(;i.length<s;)i.push(P.empty);i[s]=P.of(r.slice(1)),t.push(r[0],i[s].length)}}}return new n(t,i)}static createSet(e,t){
return new n(e,t)}};function ne(n,e,t,i=!1){if(e==0&&t<=0)return;let s=n.length-2;s>=0&&t<=0&&t==n[s+1]?n[s]+=e:s>=0&&e==
0&&n[s]==0?n[s+1]+=t:i?(n[s]+=e,n[s+1]+=t):n.push(e,t)}function it(n,e,t){if(t.length==0)return;let i=e.length-2>>1;if(i<
n.length)n[n.length-1]=n[n.length-1].append(t);else{for(;n.length<i;)n.push(P.empty);n.push(t)}}function Ns(n,e,t){let i=n.
inserted;for(let s=0,r=0,o=0;o<n.sections.length;){let l=n.sections[o++],a=n.sections[o++];if(a<0)s+=l,r+=l;else{let h=s,
c=r,f=P.empty;for(;h+=l,c+=a,a&&i&&(f=f.append(i[o-2>>1])),!(t||o==n.sections.length||n.sections[o+1]<0);)l=n.sections[o++],
a=n.sections[o++];e(s,h,r,c,f),s=h,r=c}}}function Fs(n,e,t,i=!1){let s=[],r=i?[]:null,o=new kt(n),l=new kt(e);for(let a=-1;;){
if(o.done&&l.len||l.done&&o.len)throw new Error("Mismatched change set lengths");if(o.ins==-1&&l.ins==-1){let h=Math.min(
o.len,l.len);ne(s,h,-1),o.forward(h),l.forward(h)}else if(l.ins>=0&&(o.ins<0||a==o.i||o.off==0&&(l.len<o.len||l.len==o.len&&
!t))){let h=l.len;for(ne(s,l.ins,-1);h;){let c=Math.min(o.len,h);o.ins>=0&&a<o.i&&o.len<=c&&(ne(s,0,o.ins),r&&it(r,s,o.text),
a=o.i),o.forward(c),h-=c}l.next()}else if(o.ins>=0){let h=0,c=o.len;for(;c;)if(l.ins==-1){let f=Math.min(c,l.len);h+=f,c-=
f,l.forward(f)}else if(l.ins==0&&l.len<c)c-=l.len,l.next();else break;ne(s,h,a<o.i?o.ins:0),r&&a<o.i&&it(r,s,o.text),a=o.
i,o.forward(o.len-c)}else{if(o.done&&l.done)return r?ae.createSet(s,r):Xe.create(s);throw new Error("Mismatched change s\
et lengths")}}}function ml(n,e,t=!1){let i=[],s=t?[]:null,r=new kt(n),o=new kt(e);for(let l=!1;;){if(r.done&&o.done)return s?
ae.createSet(i,s):Xe.create(i);if(r.ins==0)ne(i,r.len,0,l),r.next();else if(o.len==0&&!o.done)ne(i,0,o.ins,l),s&&it(s,i,
o.text),o.next();else{if(r.done||o.done)throw new Error("Mismatched change set lengths");{let a=Math.min(r.len2,o.len),h=i.
length;if(r.ins==-1){let c=o.ins==-1?-1:o.off?0:o.ins;ne(i,a,c,l),s&&c&&it(s,i,o.text)}else o.ins==-1?(ne(i,r.off?0:r.len,
a,l),s&&it(s,i,r.textBit(a))):(ne(i,r.off?0:r.len,o.off?0:o.ins,l),s&&!o.off&&it(s,i,o.text));l=(r.ins>a||o.ins>=0&&o.len>
a)&&(l||i.length>h),r.forward2(a),o.forward(a)}}}}var kt=class{constructor(e){this.set=e,this.i=0,this.next()}next(){let{
sections:e}=this.set;this.i<e.length?(this.len=e[this.i++],this.ins=e[this.i++]):(this.len=0,this.ins=-2),this.off=0}get done(){
return this.ins==-2}get len2(){return this.ins<0?this.len:this.ins}get text(){let{inserted:e}=this.set,t=this.i-2>>1;return t>=
e.length?P.empty:e[t]}textBit(e){let{inserted:t}=this.set,i=this.i-2>>1;return i>=t.length&&!e?P.empty:t[i].slice(this.off,
e==null?void 0:this.off+e)}forward(e){e==this.len?this.next():(this.len-=e,this.off+=e)}forward2(e){this.ins==-1?this.forward(
e):e==this.ins?this.next():(this.ins-=e,this.off+=e)}},yt=class n{constructor(e,t,i,s){this.from=e,this.to=t,this.flags=
i,this.goalColumn=s}get anchor(){return this.flags&32?this.to:this.from}get head(){return this.flags&32?this.from:this.to}get empty(){
return this.from==this.to}get assoc(){return this.flags&8?-1:this.flags&16?1:0}get undirectional(){return(this.flags&64)>
0}get bidiLevel(){let e=this.flags&7;return e==7?null:e}map(e,t=-1){let i,s;return this.empty?i=s=e.mapPos(this.from,t):
(i=e.mapPos(this.from,1),s=e.mapPos(this.to,-1)),i==this.from&&s==this.to?this:new n(i,s,this.flags,this.goalColumn)}extend(e,t=e,i=0){
if(e<=this.anchor&&t>=this.anchor)return x.range(e,t,void 0,void 0,i);let s=Math.abs(e-this.anchor)>Math.abs(t-this.anchor)?
e:t;return x.range(this.anchor,s,void 0,void 0,i)}eq(e,t=!1){return this.anchor==e.anchor&&this.head==e.head&&this.goalColumn==
e.goalColumn&&(!t||!this.empty||this.assoc==e.assoc)}toJSON(){return{anchor:this.anchor,head:this.head}}static fromJSON(e){
if(!e||typeof e.anchor!="number"||typeof e.head!="number")throw new RangeError("Invalid JSON representation for Selectio\
nRange");return x.range(e.anchor,e.head)}static create(e,t,i,s){return new n(e,t,i,s)}},x=class n{constructor(e,t){this.
ranges=e,this.mainIndex=t}map(e,t=-1){return e.empty?this:n.create(this.ranges.map(i=>i.map(e,t)),this.mainIndex)}eq(e,t=!1){
if(this.ranges.length!=e.ranges.length||this.mainIndex!=e.mainIndex)return!1;for(let i=0;i<this.ranges.length;i++)if(!this.
ranges[i].eq(e.ranges[i],t))return!1;return!0}get main(){return this.ranges[this.mainIndex]}asSingle(){return this.ranges.
length==1?this:new n([this.main],0)}addRange(e,t=!0){return n.create([e].concat(this.ranges),t?0:this.mainIndex+1)}replaceRange(e,t=this.
mainIndex){let i=this.ranges.slice();return i[t]=e,n.create(i,this.mainIndex)}toJSON(){return{ranges:this.ranges.map(e=>e.
toJSON()),main:this.mainIndex}}static fromJSON(e){if(!e||!Array.isArray(e.ranges)||typeof e.main!="number"||e.main>=e.ranges.
length)throw new RangeError("Invalid JSON representation for EditorSelection");return new n(e.ranges.map(t=>yt.fromJSON(
t)),e.main)}static single(e,t=e){return new n([n.range(e,t)],0)}static create(e,t=0){if(e.length==0)throw new RangeError(
"A selection needs at least one range");for(let i=0,s=0;s<e.length;s++){let r=e[s];if(r.empty?r.from<=i:r.from<i)return n.
normalized(e.slice(),t);i=r.to}return new n(e,t)}static cursor(e,t=0,i,s){return yt.create(e,e,(t==0?0:t<0?8:16)|(i==null?
7:Math.min(6,i)),s)}static range(e,t,i,s,r){let o=s==null?7:Math.min(6,s);return!r&&e!=t&&(r=t<e?1:-1),r&&(o|=r<0?8:16),
t<e?yt.create(t,e,o|32,i):yt.create(e,t,o,i)}static undirectionalRange(e,t){return yt.create(e,t,64,void 0)}static normalized(e,t=0){
let i=e[t];e.sort((s,r)=>s.from-r.from),t=e.indexOf(i);for(let s=1;s<e.length;s++){let r=e[s],o=e[s-1];if(r.empty?r.from<=
o.to:r.from<o.to){let l=o.from,a=Math.max(r.to,o.to);s<=t&&t--,e.splice(--s,2,r.anchor>r.head?n.range(a,l):n.range(l,a))}}
return new n(e,t)}};function yl(n,e){for(let t of n.ranges)if(t.to>e)throw new RangeError("Selection points outside of d\
ocument")}var Us=0,C=class n{constructor(e,t,i,s,r){this.combine=e,this.compareInput=t,this.compare=i,this.isStatic=s,this.
id=Us++,this.default=e([]),this.extensions=typeof r=="function"?r(this):r}get reader(){return this}static define(e={}){return new n(
e.combine||(t=>t),e.compareInput||((t,i)=>t===i),e.compare||(e.combine?(t,i)=>t===i:_s),!!e.static,e.enables)}of(e){return new Vt(
[],this,0,e)}compute(e,t){if(this.isStatic)throw new Error("Can't compute a static facet");return new Vt(e,this,1,t)}computeN(e,t){
if(this.isStatic)throw new Error("Can't compute a static facet");return new Vt(e,this,2,t)}from(e,t){return t||(t=i=>i),
this.compute([e],i=>t(i.field(e)))}};function _s(n,e){return n==e||n.length==e.length&&n.every((t,i)=>t===e[i])}var Vt=class{constructor(e,t,i,s){
this.dependencies=e,this.facet=t,this.type=i,this.value=s,this.id=Us++}dynamicSlot(e){var t;let i=this.value,s=this.facet.
compareInput,r=this.id,o=e[r]>>1,l=this.type==2,a=!1,h=!1,c=[];for(let f of this.dependencies)f=="doc"?a=!0:f=="selectio\
n"?h=!0:(((t=e[f.id])!==null&&t!==void 0?t:1)&1)==0&&c.push(e[f.id]);return{create(f){return f.values[o]=i(f),1},update(f,u){
if(a&&u.docChanged||h&&(u.docChanged||u.selection)||Hs(f,c)){let d=i(f);if(l?!fl(d,f.values[o],s):!s(d,f.values[o]))return f.
values[o]=d,1}return 0},reconfigure:(f,u)=>{let d,p=u.config.address[r];if(p!=null){let g=cn(u,p);if(this.dependencies.every(
m=>m instanceof C?u.facet(m)===f.facet(m):m instanceof ee?u.field(m,!1)==f.field(m,!1):!0)||(l?fl(d=i(f),g,s):s(d=i(f),g)))
return f.values[o]=g,0}else d=i(f);return f.values[o]=d,1}}}get extension(){return this}};function fl(n,e,t){if(n.length!=
e.length)return!1;for(let i=0;i<n.length;i++)if(!t(n[i],e[i]))return!1;return!0}function Hs(n,e){let t=!1;for(let i of e)
gi(n,i)&1&&(t=!0);return t}function df(n,e,t){let i=t.map(a=>n[a.id]),s=t.map(a=>a.type),r=i.filter(a=>!(a&1)),o=n[e.id]>>
1;function l(a){let h=[];for(let c=0;c<i.length;c++){let f=cn(a,i[c]);if(s[c]==2)for(let u of f)h.push(u);else h.push(f)}
return e.combine(h)}return{create(a){for(let h of i)gi(a,h);return a.values[o]=l(a),1},update(a,h){if(!Hs(a,r))return 0;
let c=l(a);return e.compare(c,a.values[o])?0:(a.values[o]=c,1)},reconfigure(a,h){let c=Hs(a,i),f=h.config.facets[e.id],u=h.
facet(e);if(f&&!c&&_s(t,f))return a.values[o]=u,0;let d=l(a);return e.compare(d,u)?(a.values[o]=u,0):(a.values[o]=d,1)}}}
var tn=C.define({static:!0}),ee=class n{constructor(e,t,i,s,r){this.id=e,this.createF=t,this.updateF=i,this.compareF=s,this.
spec=r,this.provides=void 0}static define(e){let t=new n(Us++,e.create,e.update,e.compare||((i,s)=>i===s),e);return e.provide&&
(t.provides=e.provide(t)),t}create(e){let t=e.facet(tn).find(i=>i.field==this);return(t?.create||this.createF)(e)}slot(e){
let t=e[this.id]>>1;return{create:i=>(i.values[t]=this.create(i),1),update:(i,s)=>{let r=i.values[t],o=this.updateF(r,s);
return this.compareF(r,o)?0:(i.values[t]=o,1)},reconfigure:(i,s)=>{let r=i.facet(tn),o=s.facet(tn),l;return(l=r.find(a=>a.
field==this))&&l!=o.find(a=>a.field==this)?(i.values[t]=l.create(i),1):s.config.address[this.id]!=null?(i.values[t]=s.field(
this),0):(i.values[t]=this.create(i),1)}}}init(e){return[this,tn.of({field:this,create:e})]}get extension(){return this}},
bt={lowest:4,low:3,default:2,high:1,highest:0};function pi(n){return e=>new an(e,n)}var nt={highest:pi(bt.highest),high:pi(
bt.high),default:pi(bt.default),low:pi(bt.low),lowest:pi(bt.lowest)},an=class{constructor(e,t){this.inner=e,this.prec=t}get extension(){
return this}},Kt=class n{of(e){return new mi(this,e)}reconfigure(e){return n.reconfigure.of({compartment:this,extension:e})}get(e){
return e.config.compartments.get(this)}},mi=class{constructor(e,t){this.compartment=e,this.inner=t}get extension(){return this}},
hn=class n{constructor(e,t,i,s,r,o){for(this.base=e,this.compartments=t,this.dynamicSlots=i,this.address=s,this.staticValues=
r,this.facets=o,this.statusTemplate=[];this.statusTemplate.length<i.length;)this.statusTemplate.push(0)}staticFacet(e){let t=this.
address[e.id];return t==null?e.default:this.staticValues[t>>1]}static resolve(e,t,i){let s=[],r=Object.create(null),o=new Map;
for(let u of pf(e,t,o))u instanceof ee?s.push(u):(r[u.facet.id]||(r[u.facet.id]=[])).push(u);let l=Object.create(null),a=[],
h=[];for(let u of s)l[u.id]=h.length<<1,h.push(d=>u.slot(d));let c=i?.config.facets;for(let u in r){let d=r[u],p=d[0].facet,
g=c&&c[u]||[];if(d.every(m=>m.type==0))if(l[p.id]=a.length<<1|1,_s(g,d))a.push(i.facet(p));else{let m=p.combine(d.map(y=>y.
value));a.push(i&&p.compare(m,i.facet(p))?i.facet(p):m)}else{for(let m of d)m.type==0?(l[m.id]=a.length<<1|1,a.push(m.value)):
(l[m.id]=h.length<<1,h.push(y=>m.dynamicSlot(y)));l[p.id]=h.length<<1,h.push(m=>df(m,p,d))}}let f=h.map(u=>u(l));return new n(
e,o,f,l,a,r)}};function pf(n,e,t){let i=[[],[],[],[],[]],s=new Map;function r(o,l){let a=s.get(o);if(a!=null){if(a<=l)return;
let h=i[a].indexOf(o);h>-1&&i[a].splice(h,1),o instanceof mi&&t.delete(o.compartment)}if(s.set(o,l),Array.isArray(o))for(let h of o)
r(h,l);else if(o instanceof mi){if(t.has(o.compartment))throw new RangeError("Duplicate use of compartment in extensions");
let h=e.get(o.compartment)||o.inner;t.set(o.compartment,h),r(h,l)}else if(o instanceof an)r(o.inner,o.prec);else if(o instanceof
ee)i[l].push(o),o.provides&&r(o.provides,l);else if(o instanceof Vt)i[l].push(o),o.facet.extensions&&r(o.facet.extensions,
bt.default);else{let h=o.extension;if(!h)throw new Error(`Unrecognized extension value in extension set (${o}).`);if(h==
o)throw new Error(`Unrecognized extension value in extension set (${o}). This sometimes happens because multiple instanc\
es of @codemirror/state are loaded, breaking instanceof checks.`);r(h,l)}}return r(n,bt.default),i.reduce((o,l)=>o.concat(
l))}function gi(n,e){if(e&1)return 2;let t=e>>1,i=n.status[t];if(i==4)throw new Error("Cyclic dependency between fields \
and/or facets");if(i&2)return i;n.status[t]=4;let s=n.computeSlot(n,n.config.dynamicSlots[t]);return n.status[t]=2|s}function cn(n,e){
return e&1?n.config.staticValues[e>>1]:n.values[e>>1]}var bl=C.define(),Ws=C.define({combine:n=>n.some(e=>e),static:!0}),
xl=C.define({combine:n=>n.length?n[0]:void 0,static:!0}),wl=C.define(),kl=C.define(),vl=C.define(),Sl=C.define({combine:n=>n.
length?n[0]:!1}),ve=class{constructor(e,t){this.type=e,this.value=t}static define(){return new Vs}},Vs=class{of(e){return new ve(
this,e)}},zs=class{constructor(e){this.map=e}of(e){return new R(this,e)}},R=class n{constructor(e,t){this.type=e,this.value=
t}map(e){let t=this.type.map(this.value,e);return t===void 0?void 0:t==this.value?this:new n(this.type,t)}is(e){return this.
type==e}static define(e={}){return new zs(e.map||(t=>t))}static mapEffects(e,t){if(!e.length)return e;let i=[];for(let s of e){
let r=s.map(t);r&&i.push(r)}return i}};R.reconfigure=R.define();R.appendConfig=R.define();var X=class n{constructor(e,t,i,s,r,o){
this.startState=e,this.changes=t,this.selection=i,this.effects=s,this.annotations=r,this.scrollIntoView=o,this._doc=null,
this._state=null,i&&yl(i,t.newLength),r.some(l=>l.type==n.time)||(this.annotations=r.concat(n.time.of(Date.now())))}static create(e,t,i,s,r,o){
return new n(e,t,i,s,r,o)}get newDoc(){return this._doc||(this._doc=this.changes.apply(this.startState.doc))}get newSelection(){
return this.selection||this.startState.selection.map(this.changes)}get state(){return this._state||this.startState.applyTransaction(
this),this._state}annotation(e){for(let t of this.annotations)if(t.type==e)return t.value}get docChanged(){return!this.changes.
empty}get reconfigured(){return this.startState.config!=this.state.config}isUserEvent(e){let t=this.annotation(n.userEvent);
return!!(t&&(t==e||t.length>e.length&&t.slice(0,e.length)==e&&t[e.length]=="."))}};X.time=ve.define();X.userEvent=ve.define();
X.addToHistory=ve.define();X.remote=ve.define();function gf(n,e){let t=[];for(let i=0,s=0;;){let r,o;if(i<n.length&&(s==
e.length||e[s]>=n[i]))r=n[i++],o=n[i++];else if(s<e.length)r=e[s++],o=e[s++];else return t;!t.length||t[t.length-1]<r?t.
push(r,o):t[t.length-1]<o&&(t[t.length-1]=o)}}function Cl(n,e,t){var i;let s,r,o;return t?(s=e.changes,r=ae.empty(e.changes.
length),o=n.changes.compose(e.changes)):(s=e.changes.map(n.changes),r=n.changes.mapDesc(e.changes,!0),o=n.changes.compose(
s)),{changes:o,selection:e.selection?e.selection.map(r):(i=n.selection)===null||i===void 0?void 0:i.map(s),effects:R.mapEffects(
n.effects,s).concat(R.mapEffects(e.effects,r)),annotations:n.annotations.length?n.annotations.concat(e.annotations):e.annotations,
scrollIntoView:n.scrollIntoView||e.scrollIntoView}}function qs(n,e,t){let i=e.selection,s=zt(e.annotations);return e.userEvent&&
(s=s.concat(X.userEvent.of(e.userEvent))),{changes:e.changes instanceof ae?e.changes:ae.of(e.changes||[],t,n.facet(xl)),
selection:i&&(i instanceof x?i:x.single(i.anchor,i.head)),effects:zt(e.effects),annotations:s,scrollIntoView:!!e.scrollIntoView}}
function Al(n,e,t){let i=qs(n,e.length?e[0]:{},n.doc.length);e.length&&e[0].filter===!1&&(t=!1);for(let r=1;r<e.length;r++){
e[r].filter===!1&&(t=!1);let o=!!e[r].sequential;i=Cl(i,qs(n,e[r],o?i.changes.newLength:n.doc.length),o)}let s=X.create(
n,i.changes,i.selection,i.effects,i.annotations,i.scrollIntoView);return yf(t?mf(s):s)}function mf(n){let e=n.startState,
t=!0;for(let s of e.facet(wl)){let r=s(n);if(r===!1){t=!1;break}Array.isArray(r)&&(t=t===!0?r:gf(t,r))}if(t!==!0){let s,
r;if(t===!1)r=n.changes.invertedDesc,s=ae.empty(e.doc.length);else{let o=n.changes.filter(t);s=o.changes,r=o.filtered.mapDesc(
o.changes).invertedDesc}n=X.create(e,s,n.selection&&n.selection.map(r),R.mapEffects(n.effects,r),n.annotations,n.scrollIntoView)}
let i=e.facet(kl);for(let s=i.length-1;s>=0;s--){let r=i[s](n);r instanceof X?n=r:Array.isArray(r)&&r.length==1&&r[0]instanceof
X?n=r[0]:n=Al(e,zt(r),!1)}return n}function yf(n){let e=n.startState,t=e.facet(vl),i=n;for(let s=t.length-1;s>=0;s--){let r=t[s](
n);r&&Object.keys(r).length&&(i=Cl(i,qs(e,r,n.changes.newLength),!0))}return i==n?n:X.create(e,n.changes,n.selection,i.effects,
i.annotations,i.scrollIntoView)}var bf=[];function zt(n){return n==null?bf:Array.isArray(n)?n:[n]}var j=(function(n){return n[n.
Word=0]="Word",n[n.Space=1]="Space",n[n.Other=2]="Other",n})(j||(j={})),xf=/[\u00df\u0587\u0590-\u05f4\u0600-\u06ff\u3040-\u309f\u30a0-\u30ff\u3400-\u4db5\u4e00-\u9fcc\uac00-\ud7af]/,
Ks;try{Ks=new RegExp("[\\p{Alphabetic}\\p{Number}_]","u")}catch{}function wf(n){if(Ks)return Ks.test(n);for(let e=0;e<n.
length;e++){let t=n[e];if(/\w/.test(t)||t>""&&(t.toUpperCase()!=t.toLowerCase()||xf.test(t)))return!0}return!1}function kf(n){
return e=>{if(!/\S/.test(e))return j.Space;if(wf(e))return j.Word;for(let t=0;t<n.length;t++)if(e.indexOf(n[t])>-1)return j.
Word;return j.Other}}var V=class n{constructor(e,t,i,s,r,o){this.config=e,this.doc=t,this.selection=i,this.values=s,this.
status=e.statusTemplate.slice(),this.computeSlot=r,o&&(o._state=this);for(let l=0;l<this.config.dynamicSlots.length;l++)
gi(this,l<<1);this.computeSlot=null}field(e,t=!0){let i=this.config.address[e.id];if(i==null){if(t)throw new RangeError(
"Field is not present in this state");return}return gi(this,i),cn(this,i)}update(...e){return Al(this,e,!0)}applyTransaction(e){
let t=this.config,{base:i,compartments:s}=t;for(let l of e.effects)l.is(Kt.reconfigure)?(t&&(s=new Map,t.compartments.forEach(
(a,h)=>s.set(h,a)),t=null),s.set(l.value.compartment,l.value.extension)):l.is(R.reconfigure)?(t=null,i=l.value):l.is(R.appendConfig)&&
(t=null,i=zt(i).concat(l.value));let r;t?r=e.startState.values.slice():(t=hn.resolve(i,s,this),r=new n(t,this.doc,this.selection,
t.dynamicSlots.map(()=>null),(a,h)=>h.reconfigure(a,this),null).values);let o=e.startState.facet(Ws)?e.newSelection:e.newSelection.
asSingle();new n(t,e.newDoc,o,r,(l,a)=>a.update(l,e),e)}replaceSelection(e){return typeof e=="string"&&(e=this.toText(e)),
this.changeByRange(t=>({changes:{from:t.from,to:t.to,insert:e},range:x.cursor(t.from+e.length,-1)}))}changeByRange(e){let t=this.
selection,i=e(t.ranges[0]),s=this.changes(i.changes),r=[i.range],o=zt(i.effects);for(let l=1;l<t.ranges.length;l++){let a=e(
t.ranges[l]),h=this.changes(a.changes),c=h.map(s);for(let u=0;u<l;u++)r[u]=r[u].map(c);let f=s.mapDesc(h,!0);r.push(a.range.
map(f)),s=s.compose(c),o=R.mapEffects(o,c).concat(R.mapEffects(zt(a.effects),f))}return{changes:s,selection:x.create(r,t.
mainIndex),effects:o}}changes(e=[]){return e instanceof ae?e:ae.of(e,this.doc.length,this.facet(n.lineSeparator))}toText(e){
return P.of(e.split(this.facet(n.lineSeparator)||Is))}sliceDoc(e=0,t=this.doc.length){return this.doc.sliceString(e,t,this.
lineBreak)}facet(e){let t=this.config.address[e.id];return t==null?e.default:(gi(this,t),cn(this,t))}toJSON(e){let t={doc:this.
sliceDoc(),selection:this.selection.toJSON()};if(e)for(let i in e){let s=e[i];s instanceof ee&&this.config.address[s.id]!=
null&&(t[i]=s.spec.toJSON(this.field(e[i]),this))}return t}static fromJSON(e,t={},i){if(!e||typeof e.doc!="string")throw new RangeError(
"Invalid JSON representation for EditorState");let s=[];if(i){for(let r in i)if(Object.prototype.hasOwnProperty.call(e,r)){
let o=i[r],l=e[r];s.push(o.init(a=>o.spec.fromJSON(l,a)))}}return n.create({doc:e.doc,selection:x.fromJSON(e.selection),
extensions:t.extensions?s.concat([t.extensions]):s})}static create(e={}){let t=hn.resolve(e.extensions||[],new Map),i=e.
doc instanceof P?e.doc:P.of((e.doc||"").split(t.staticFacet(n.lineSeparator)||Is)),s=e.selection?e.selection instanceof x?
e.selection:x.single(e.selection.anchor,e.selection.head):x.single(0);return yl(s,i.length),t.staticFacet(Ws)||(s=s.asSingle()),
new n(t,i,s,t.dynamicSlots.map(()=>null),(r,o)=>o.create(r),null)}get tabSize(){return this.facet(n.tabSize)}get lineBreak(){
return this.facet(n.lineSeparator)||`
`}get readOnly(){return this.facet(Sl)}phrase(e,...t){for(let i of this.facet(n.phrases))if(Object.prototype.hasOwnProperty.
call(i,e)){e=i[e];break}return t.length&&(e=e.replace(/\$(\$|\d*)/g,(i,s)=>{if(s=="$")return"$";let r=+(s||1);return!r||
r>t.length?i:t[r-1]})),e}languageDataAt(e,t,i=-1){let s=[];for(let r of this.facet(bl))for(let o of r(this,t,i))Object.prototype.
hasOwnProperty.call(o,e)&&s.push(o[e]);return s}charCategorizer(e){let t=this.languageDataAt("wordChars",e);return kf(t.
length?t[0]:"")}wordAt(e){let{text:t,from:i,length:s}=this.doc.lineAt(e),r=this.charCategorizer(e),o=e-i,l=e-i;for(;o>0;){
let a=Q(t,o,!1);if(r(t.slice(a,o))!=j.Word)break;o=a}for(;l<s;){let a=Q(t,l);if(r(t.slice(l,a))!=j.Word)break;l=a}return o==
l?null:x.range(o+i,l+i)}};V.allowMultipleSelections=Ws;V.tabSize=C.define({combine:n=>n.length?n[0]:4});V.lineSeparator=
xl;V.readOnly=Sl;V.phrases=C.define({compare(n,e){let t=Object.keys(n),i=Object.keys(e);return t.length==i.length&&t.every(
s=>n[s]==e[s])}});V.languageData=bl;V.changeFilter=wl;V.transactionFilter=kl;V.transactionExtender=vl;Kt.reconfigure=R.define();
function Be(n,e,t={}){let i={};for(let s of n)for(let r of Object.keys(s)){let o=s[r],l=i[r];if(l===void 0)i[r]=o;else if(!(l===
o||o===void 0))if(Object.hasOwnProperty.call(t,r))i[r]=t[r](l,o);else throw new Error("Config merge conflict for field "+
r)}for(let s in e)i[s]===void 0&&(i[s]=e[s]);return i}var Ve=class{eq(e){return this==e}range(e,t=e){return yi.create(e,
t,this)}};Ve.prototype.startSide=Ve.prototype.endSide=0;Ve.prototype.point=!1;Ve.prototype.mapMode=le.TrackDel;function Ys(n,e){
return n==e||n.constructor==e.constructor&&n.eq(e)}var yi=class n{constructor(e,t,i){this.from=e,this.to=t,this.value=i}static create(e,t,i){
return new n(e,t,i)}};function $s(n,e){return n.from-e.from||n.value.startSide-e.value.startSide}var js=class n{constructor(e,t,i,s){
this.from=e,this.to=t,this.value=i,this.maxPoint=s}get length(){return Ht(this.to)}findIndex(e,t,i,s=0){let r=i?this.to:
this.from;for(let o=s,l=r.length;;){if(o==l)return o;let a=o+l>>1,h=r[a]-e||(i?this.value[a].endSide:this.value[a].startSide)-
t;if(a==o)return h>=0?o:l;h>=0?l=a:o=a+1}}between(e,t,i,s){for(let r=this.findIndex(t,-1e9,!0),o=this.findIndex(i,1e9,!1,
r);r<o;r++)if(s(this.from[r]+e,this.to[r]+e,this.value[r])===!1)return!1}map(e,t,i,s,r){let o=[],l=[],a=[],h=-1,c=-1;e:for(let f=0;f<
this.value.length;f++){let u=this.value[f],d=this.from[f]+e,p=this.to[f]+e,g,m;if(d==p){let y=t.mapPos(d,u.startSide,u.mapMode);
if(y==null||(g=m=y,u.startSide!=u.endSide&&(m=t.mapPos(d,u.endSide),m<g)))continue}else if(g=t.mapPos(d,u.startSide),m=t.
mapPos(p,u.endSide),g>m||g==m&&u.startSide>0&&u.endSide<=0)continue;if(!((m-g||u.endSide-u.startSide)<0))if(h<0&&(h=g),u.
point&&(c=Math.max(c,m-g)),(g-i||u.startSide-s)>=0)o.push(u),l.push(g-h),a.push(m-h),i=m,s=u.endSide;else{if(g==m)for(let y=o.
length;y>0;y--){if((g-(a[y-1]+h)||u.startSide-o[y-1].endSide)>=0){o.splice(y,0,u),l.splice(y,0,g-h),a.splice(y,0,m-h);continue e}
if((g-(l[y-1]+h)||u.endSide-o[y-1].startSide)>0)break}r(g,m,u)}}return{mapped:o.length?new n(l,a,o,c):null,pos:h}}},F=class n{constructor(e,t,i,s){
this.chunkPos=e,this.chunk=t,this.nextLayer=i,this.maxPoint=s}static create(e,t,i,s){return new n(e,t,i,s)}get length(){
let e=this.chunk.length-1;return e<0?0:Math.max(this.chunkEnd(e),this.nextLayer.length)}get size(){if(this.isEmpty)return 0;
let e=this.nextLayer.size;for(let t of this.chunk)e+=t.value.length;return e}chunkEnd(e){return this.chunkPos[e]+this.chunk[e].
length}update(e){let{add:t=[],sort:i=!1,filterFrom:s=0,filterTo:r=this.length}=e,o=e.filter;if(t.length==0&&!o)return this;
if(i&&(t=t.slice().sort($s)),this.isEmpty)return t.length?n.of(t):this;let l=new fn(this,null,-1).goto(0),a=0,h=[],c=new ke;
for(;l.value||a<t.length;)if(a<t.length&&(l.from-t[a].from||l.startSide-t[a].value.startSide)>=0){let f=t[a++];c.addInner(
f.from,f.to,f.value,!1)||h.push(f)}else l.rangeIndex==1&&l.chunkIndex<this.chunk.length&&(a==t.length||this.chunkEnd(l.chunkIndex)<
t[a].from)&&(!o||s>this.chunkEnd(l.chunkIndex)||r<this.chunkPos[l.chunkIndex])&&c.addChunk(this.chunkPos[l.chunkIndex],this.
chunk[l.chunkIndex])?l.nextChunk():((!o||s>l.to||r<l.from||o(l.from,l.to,l.value))&&(c.addInner(l.from,l.to,l.value,!1)||
h.push(yi.create(l.from,l.to,l.value))),l.next());return c.finishInner(this.nextLayer.isEmpty&&!h.length?n.empty:this.nextLayer.
update({add:h,filter:o,filterFrom:s,filterTo:r}))}map(e){if(e.empty||this.isEmpty)return this;let t=[],i=[],s=-1,r,o=(a,h,c)=>{
r||(r=new ke),r.addRange(a,h,c,!1)};for(let a=0;a<this.chunk.length;a++){let h=this.chunkPos[a],c=this.chunk[a],f=e.touchesRange(
h,h+c.length);if(f===!1)s=Math.max(s,c.maxPoint),t.push(c),i.push(e.mapPos(h));else if(f===!0){let[u,d]=t.length?[Ht(i)+
Ht(t).length,Ht(Ht(t).value).endSide]:[-1,-1],{mapped:p,pos:g}=c.map(h,e,u,d,o);p&&(s=Math.max(s,p.maxPoint),t.push(p),i.
push(g))}}let l=this.nextLayer.map(e);return r&&(l=r.finishInner(l)),t.length==0?l:new n(i,t,l||n.empty,s)}between(e,t,i){
if(!this.isEmpty){for(let s=0;s<this.chunk.length;s++){let r=this.chunkPos[s],o=this.chunk[s];if(t>=r&&e<=r+o.length&&o.
between(r,e-r,t-r,i)===!1)return}this.nextLayer.between(e,t,i)}}iter(e=0){return bi.from([this]).goto(e)}get isEmpty(){return this.
nextLayer==this}static iter(e,t=0){return bi.from(e).goto(t)}static compare(e,t,i,s,r=-1){let o=e.filter(f=>f.maxPoint>0||
!f.isEmpty&&f.maxPoint>=r),l=t.filter(f=>f.maxPoint>0||!f.isEmpty&&f.maxPoint>=r),a=ul(o,l,i),h=new xt(o,a,r),c=new xt(l,
a,r);i.iterGaps((f,u,d)=>dl(h,f,c,u,d,s)),i.empty&&i.length==0&&dl(h,0,c,0,0,s)}static eq(e,t,i=0,s){s==null&&(s=999999999);
let r=e.filter(c=>!c.isEmpty&&t.indexOf(c)<0),o=t.filter(c=>!c.isEmpty&&e.indexOf(c)<0);if(r.length!=o.length)return!1;if(!r.
length)return!0;let l=ul(r,o),a=new xt(r,l,0).goto(i),h=new xt(o,l,0).goto(i);for(;;){if(a.to!=h.to||!Gs(a.active,h.active)||
a.point&&(!h.point||!Ys(a.point,h.point)))return!1;if(a.to>s)return!0;a.next(),h.next()}}static spans(e,t,i,s,r=-1){let o=new xt(
e,null,r).goto(t),l=t,a=o.openStart;for(;;){let h=Math.min(o.to,i);if(o.point){let c=o.activeForPoint(o.to),f=o.pointFrom<
t?c.length+1:o.point.startSide<0?c.length:Math.min(c.length,a);s.point(l,h,o.point,c,f,o.pointRank),a=Math.min(o.openEnd(
h),c.length)}else h>l&&(s.span(l,h,o.active,a),a=o.openEnd(h));if(o.to>i)return a+(o.point&&o.to>i?1:0);l=o.to,o.next()}}static of(e,t=!1){
let i=new ke;for(let s of e instanceof yi?[e]:t?vf(e):e)i.add(s.from,s.to,s.value);return i.finish()}static join(e){if(!e.
length)return n.empty;let t=Ht(e);for(let i=e.length-2;i>=0;i--)for(let s=e[i];s!=n.empty;s=s.nextLayer)t=new n(s.chunkPos,
s.chunk,t,Math.max(s.maxPoint,t.maxPoint));return t}};F.empty=new F([],[],null,-1);function Ht(n){return n[n.length-1]}function vf(n){
if(n.length>1)for(let e=n[0],t=1;t<n.length;t++){let i=n[t];if($s(e,i)>0)return n.slice().sort($s);e=i}return n}F.empty.
nextLayer=F.empty;var ke=class n{finishChunk(e){this.chunks.push(new js(this.from,this.to,this.value,this.maxPoint)),this.
chunkPos.push(this.chunkStart),this.chunkStart=-1,this.setMaxPoint=Math.max(this.setMaxPoint,this.maxPoint),this.maxPoint=
-1,e&&(this.from=[],this.to=[],this.value=[])}constructor(){this.chunks=[],this.chunkPos=[],this.chunkStart=-1,this.last=
null,this.lastFrom=-1e9,this.lastTo=-1e9,this.from=[],this.to=[],this.value=[],this.maxPoint=-1,this.setMaxPoint=-1,this.
nextLayer=null}add(e,t,i){this.addRange(e,t,i,!0)}addRange(e,t,i,s){this.addInner(e,t,i,s)||(this.nextLayer||(this.nextLayer=
new n)).addRange(e,t,i,s)}addInner(e,t,i,s){let r=e-this.lastTo||i.startSide-this.last.endSide;if(s&&r<=0&&(e-this.lastFrom||
i.startSide-this.last.startSide)<0)throw new Error("Ranges must be added sorted by `from` position and `startSide`");return r<
0?!1:(this.from.length==250&&this.finishChunk(!0),this.chunkStart<0&&(this.chunkStart=e),this.from.push(e-this.chunkStart),
this.to.push(t-this.chunkStart),this.last=i,this.lastFrom=e,this.lastTo=t,this.value.push(i),i.point&&(this.maxPoint=Math.
max(this.maxPoint,t-e)),!0)}addChunk(e,t){if((e-this.lastTo||t.value[0].startSide-this.last.endSide)<0)return!1;this.from.
length&&this.finishChunk(!0),this.setMaxPoint=Math.max(this.setMaxPoint,t.maxPoint),this.chunks.push(t),this.chunkPos.push(
e);let i=t.value.length-1;return this.last=t.value[i],this.lastFrom=t.from[i]+e,this.lastTo=t.to[i]+e,!0}finish(){return this.
finishInner(F.empty)}finishInner(e){if(this.from.length&&this.finishChunk(!1),this.chunks.length==0)return e;let t=F.create(
this.chunkPos,this.chunks,this.nextLayer?this.nextLayer.finishInner(e):e,this.setMaxPoint);return this.from=null,t}};function ul(n,e,t){
let i=new Map;for(let r of n)for(let o=0;o<r.chunk.length;o++)r.chunk[o].maxPoint<=0&&i.set(r.chunk[o],r.chunkPos[o]);let s=new Set;
for(let r of e)for(let o=0;o<r.chunk.length;o++){let l=i.get(r.chunk[o]);l!=null&&(t?t.mapPos(l):l)==r.chunkPos[o]&&!t?.
touchesRange(l,l+r.chunk[o].length)&&s.add(r.chunk[o])}return s}var fn=class{constructor(e,t,i,s=0){this.layer=e,this.skip=
t,this.minPoint=i,this.rank=s}get startSide(){return this.value?this.value.startSide:0}get endSide(){return this.value?this.
value.endSide:0}goto(e,t=-1e9){return this.chunkIndex=this.rangeIndex=0,this.gotoInner(e,t,!1),this}gotoInner(e,t,i){for(;this.
chunkIndex<this.layer.chunk.length;){let s=this.layer.chunk[this.chunkIndex];if(!(this.skip&&this.skip.has(s)||this.layer.
chunkEnd(this.chunkIndex)<e||s.maxPoint<this.minPoint))break;this.chunkIndex++,i=!1}if(this.chunkIndex<this.layer.chunk.
length){let s=this.layer.chunk[this.chunkIndex].findIndex(e-this.layer.chunkPos[this.chunkIndex],t,!0);(!i||this.rangeIndex<
s)&&this.setRangeIndex(s)}this.next()}forward(e,t){(this.to-e||this.endSide-t)<0&&this.gotoInner(e,t,!0)}next(){for(;;)if(this.
chunkIndex==this.layer.chunk.length){this.from=this.to=1e9,this.value=null;break}else{let e=this.layer.chunkPos[this.chunkIndex],
t=this.layer.chunk[this.chunkIndex],i=e+t.from[this.rangeIndex];if(this.from=i,this.to=e+t.to[this.rangeIndex],this.value=
t.value[this.rangeIndex],this.setRangeIndex(this.rangeIndex+1),this.minPoint<0||this.value.point&&this.to-this.from>=this.
minPoint)break}}setRangeIndex(e){if(e==this.layer.chunk[this.chunkIndex].value.length){if(this.chunkIndex++,this.skip)for(;this.
chunkIndex<this.layer.chunk.length&&this.skip.has(this.layer.chunk[this.chunkIndex]);)this.chunkIndex++;this.rangeIndex=
0}else this.rangeIndex=e}nextChunk(){this.chunkIndex++,this.rangeIndex=0,this.next()}compare(e){return this.from-e.from||
this.startSide-e.startSide||this.rank-e.rank||this.to-e.to||this.endSide-e.endSide}},bi=class n{constructor(e){this.heap=
e}static from(e,t=null,i=-1){let s=[];for(let r=0;r<e.length;r++)for(let o=e[r];!o.isEmpty;o=o.nextLayer)o.maxPoint>=i&&
s.push(new fn(o,t,i,r));return s.length==1?s[0]:new n(s)}get startSide(){return this.value?this.value.startSide:0}goto(e,t=-1e9){
for(let i of this.heap)i.goto(e,t);for(let i=this.heap.length>>1;i>=0;i--)Rs(this.heap,i);return this.next(),this}forward(e,t){
for(let i of this.heap)i.forward(e,t);for(let i=this.heap.length>>1;i>=0;i--)Rs(this.heap,i);(this.to-e||this.value.endSide-
t)<0&&this.next()}next(){if(this.heap.length==0)this.from=this.to=1e9,this.value=null,this.rank=-1;else{let e=this.heap[0];
this.from=e.from,this.to=e.to,this.value=e.value,this.rank=e.rank,e.value&&e.next(),Rs(this.heap,0)}}};function Rs(n,e){
for(let t=n[e];;){let i=(e<<1)+1;if(i>=n.length)break;let s=n[i];if(i+1<n.length&&s.compare(n[i+1])>=0&&(s=n[i+1],i++),t.
compare(s)<0)break;n[i]=t,n[e]=s,e=i}}var xt=class{constructor(e,t,i){this.minPoint=i,this.active=[],this.activeTo=[],this.
activeRank=[],this.minActive=-1,this.point=null,this.pointFrom=0,this.pointRank=0,this.to=-1e9,this.endSide=0,this.openStart=
-1,this.cursor=bi.from(e,t,i)}goto(e,t=-1e9){return this.cursor.goto(e,t),this.active.length=this.activeTo.length=this.activeRank.
length=0,this.minActive=-1,this.to=e,this.endSide=t,this.openStart=-1,this.next(),this}forward(e,t){for(;this.minActive>
-1&&(this.activeTo[this.minActive]-e||this.active[this.minActive].endSide-t)<0;)this.removeActive(this.minActive);this.cursor.
forward(e,t)}removeActive(e){nn(this.active,e),nn(this.activeTo,e),nn(this.activeRank,e),this.minActive=pl(this.active,this.
activeTo)}addActive(e){let t=0,{value:i,to:s,rank:r}=this.cursor;for(;t<this.activeRank.length&&(r-this.activeRank[t]||s-
this.activeTo[t])>0;)t++;sn(this.active,t,i),sn(this.activeTo,t,s),sn(this.activeRank,t,r),e&&sn(e,t,this.cursor.from),this.
minActive=pl(this.active,this.activeTo)}next(){let e=this.to,t=this.point;this.point=null;let i=this.openStart<0?[]:null;
for(;;){let s=this.minActive;if(s>-1&&(this.activeTo[s]-this.cursor.from||this.active[s].endSide-this.cursor.startSide)<
0){if(this.activeTo[s]>e){this.to=this.activeTo[s],this.endSide=this.active[s].endSide;break}this.removeActive(s),i&&nn(
i,s)}else if(this.cursor.value)if(this.cursor.from>e){this.to=this.cursor.from,this.endSide=this.cursor.startSide;break}else{
let r=this.cursor.value;if(!r.point)this.addActive(i),this.cursor.next();else if(t&&this.cursor.to==this.to&&this.cursor.
from<this.cursor.to)this.cursor.next();else{this.point=r,this.pointFrom=this.cursor.from,this.pointRank=this.cursor.rank,
this.to=this.cursor.to,this.endSide=r.endSide,this.cursor.next(),this.forward(this.to,this.endSide);break}}else{this.to=
this.endSide=1e9;break}}if(i){this.openStart=0;for(let s=i.length-1;s>=0&&i[s]<e;s--)this.openStart++}}activeForPoint(e){
if(!this.active.length)return this.active;let t=[];for(let i=this.active.length-1;i>=0&&!(this.activeRank[i]<this.pointRank);i--)
(this.activeTo[i]>e||this.activeTo[i]==e&&this.active[i].endSide>=this.point.endSide)&&t.push(this.active[i]);return t.reverse()}openEnd(e){
let t=0;for(let i=this.activeTo.length-1;i>=0&&this.activeTo[i]>e;i--)t++;return t}};function dl(n,e,t,i,s,r){n.goto(e),
t.goto(i);let o=i+s,l=i,a=i-e,h=!!r.boundChange;for(let c=!1;;){let f=n.to+a-t.to,u=f||n.endSide-t.endSide,d=u<0?n.to+a:
t.to,p=Math.min(d,o);if(n.point||t.point?(n.point&&t.point&&Ys(n.point,t.point)&&Gs(n.activeForPoint(n.to),t.activeForPoint(
t.to))||r.comparePoint(l,p,n.point,t.point),c=!1):(c&&(r.boundChange(l),c=!1),p>l&&!Gs(n.active,t.active)&&r.compareRange(
l,p,n.active,t.active),h&&p<o&&(f||n.openEnd(d)!=t.openEnd(d))&&(c=!0)),d>o)break;l=d,u<=0&&n.next(),u>=0&&t.next()}}function Gs(n,e){
if(n.length!=e.length)return!1;for(let t=0;t<n.length;t++)if(n[t]!=e[t]&&!Ys(n[t],e[t]))return!1;return!0}function nn(n,e){
for(let t=e,i=n.length-1;t<i;t++)n[t]=n[t+1];n.pop()}function sn(n,e,t){for(let i=n.length-1;i>=e;i--)n[i+1]=n[i];n[e]=t}
function pl(n,e){let t=-1,i=1e9;for(let s=0;s<e.length;s++)(e[s]-i||n[s].endSide-n[t].endSide)<0&&(t=s,i=e[s]);return t}
function vt(n,e,t=n.length){let i=0;for(let s=0;s<t&&s<n.length;)n.charCodeAt(s)==9?(i+=e-i%e,s++):(i++,s=Q(n,s));return i}
function Ml(n,e,t,i){for(let s=0,r=0;;){if(r>=e)return s;if(s==n.length)break;r+=n.charCodeAt(s)==9?t-r%t:1,s=Q(n,s)}return i===
!0?-1:n.length}var Tl=typeof Symbol>"u"?"__ͼ":Symbol.for("ͼ"),Xs=typeof Symbol>"u"?"__styleSet"+Math.floor(Math.random()*1e8):Symbol(
"styleSet"),Dl=typeof globalThis<"u"?globalThis:typeof window<"u"?window:{},Se=class{constructor(e,t){this.rules=[];let{
finish:i}=t||{};function s(r,o,l,a){let h=[],c=/^@(\w+)\b/.exec(r[0]),f=c&&c[1]=="keyframes";if(c&&o==null)return l.push(
r[0]+";");for(let u in o){let d=o[u];if(/&/.test(u))s(u.split(/,\s*/).map(p=>r.map(g=>p.replace(/&/,g))).reduce((p,g)=>p.
concat(g)),d,l);else if(d&&typeof d=="object"){if(!c)throw new RangeError("The value of a property ("+u+") should be a p\
rimitive value.");s(Ol(u),d,h,f)}else d!=null&&(/^--/.test(u)||(u=u.replace(/_.*/,"").replace(/[A-Z]/g,p=>"-"+p.toLowerCase())),
h.push(u+": "+d+";"))}(h.length||f)&&l.push((i&&!c&&!a?r.map(i):r).join(", ")+" {"+h.join(" ")+"}")}for(let r in e)s(Ol(
r),e[r],this.rules)}getRules(){return this.rules.join(`
`)}static newName(){let e=Dl[Tl]||1;return Dl[Tl]=e+1,"ͼ"+e.toString(36)}static mount(e,t,i){let s=e[Xs],r=i&&i.nonce;s?
r&&s.setNonce(r):s=new Js(e,r),s.mount(Array.isArray(t)?t:[t],e)}};function Ol(n){if(/^@/.test(n))return[n];let e=[],t=0,
i=null,s=0,r=0;for(let o=0;o<n.length;o++){let l=n[o];l=="\\"?o++:l=='"'||l=="'"?l==i?i=!1:i||(i=l):(l=="["||l=="(")&&!i?
t++:(l=="]"||l==")")&&!i?t--:l==","&&!t&&!i&&(e.push(n.slice(r,s)),r=o+1),/\S/.test(l)?s=o+1:o==r&&r++}return e.push(n.slice(
r,s)),e}var Bl=new Map,Js=class{constructor(e,t){let i=e.ownerDocument||e,s=i.defaultView;if(!e.head&&e.adoptedStyleSheets&&
s.CSSStyleSheet){let r=Bl.get(i);if(r)return e[Xs]=r;this.sheet=new s.CSSStyleSheet,Bl.set(i,this)}else this.styleTag=i.
createElement("style"),t&&this.styleTag.setAttribute("nonce",t);this.modules=[],e[Xs]=this}mount(e,t){let i=this.sheet,s=0,
r=0,o=!1;for(let l=0;l<e.length;l++){let a=e[l],h=this.modules.indexOf(a);if(h<r&&h>-1&&(this.modules.splice(h,1),o=!0,r--,
h=-1),h==-1){if(this.modules.splice(r++,0,a),o=!0,i)for(let c=0;c<a.rules.length;c++)i.insertRule(a.rules[c],s++)}else{for(;r<
h;)s+=this.modules[r++].rules.length;s+=a.rules.length,r++}}if(i)t.adoptedStyleSheets.indexOf(this.sheet)<0&&(t.adoptedStyleSheets=
[this.sheet,...t.adoptedStyleSheets]);else{if(o){let a="";for(let h=0;h<this.modules.length;h++)a+=this.modules[h].getRules()+
`
`;this.styleTag.textContent=a}let l=t.head||t;this.styleTag.parentNode!=l&&l.insertBefore(this.styleTag,l.firstChild)}}setNonce(e){
this.styleTag&&this.styleTag.getAttribute("nonce")!=e&&this.styleTag.setAttribute("nonce",e)}};var Je={8:"Backspace",9:"Tab",10:"Enter",12:"NumLock",13:"Enter",16:"Shift",17:"Control",18:"Alt",20:"CapsLock",27:"Esca\
pe",32:" ",33:"PageUp",34:"PageDown",35:"End",36:"Home",37:"ArrowLeft",38:"ArrowUp",39:"ArrowRight",40:"ArrowDown",44:"P\
rintScreen",45:"Insert",46:"Delete",59:";",61:"=",91:"Meta",92:"Meta",106:"*",107:"+",108:",",109:"-",110:".",111:"/",144:"\
NumLock",145:"ScrollLock",160:"Shift",161:"Shift",162:"Control",163:"Control",164:"Alt",165:"Alt",173:"-",186:";",187:"=",
188:",",189:"-",190:".",191:"/",192:"`",219:"[",220:"\\",221:"]",222:"'"},$t={48:")",49:"!",50:"@",51:"#",52:"$",53:"%",
54:"^",55:"&",56:"*",57:"(",59:":",61:"+",173:"_",186:":",187:"+",188:"<",189:"_",190:">",191:"?",192:"~",219:"{",220:"|",
221:"}",222:'"'},Sf=typeof navigator<"u"&&/Mac/.test(navigator.platform),Cf=typeof navigator<"u"&&/MSIE \d|Trident\/(?:[7-9]|\d{2,})\..*rv:(\d+)/.
exec(navigator.userAgent);for(Z=0;Z<10;Z++)Je[48+Z]=Je[96+Z]=String(Z);var Z;for(Z=1;Z<=24;Z++)Je[Z+111]="F"+Z;var Z;for(Z=
65;Z<=90;Z++)Je[Z]=String.fromCharCode(Z+32),$t[Z]=String.fromCharCode(Z);var Z;for(pn in Je)$t.hasOwnProperty(pn)||($t[pn]=
Je[pn]);var pn;function Ll(n){var e=Sf&&n.metaKey&&n.shiftKey&&!n.ctrlKey&&!n.altKey||Cf&&n.shiftKey&&n.key&&n.key.length==
1||n.key=="Unidentified",t=!e&&n.key||(n.shiftKey?$t:Je)[n.keyCode]||n.key||"Unidentified";return t=="Esc"&&(t="Escape"),
t=="Del"&&(t="Delete"),t=="Left"&&(t="ArrowLeft"),t=="Up"&&(t="ArrowUp"),t=="Right"&&(t="ArrowRight"),t=="Down"&&(t="Arr\
owDown"),t}function H(){var n=arguments[0];typeof n=="string"&&(n=document.createElement(n));var e=1,t=arguments[1];if(t&&typeof t==
"object"&&t.nodeType==null&&!Array.isArray(t)){for(var i in t)if(Object.prototype.hasOwnProperty.call(t,i)){var s=t[i];typeof s==
"string"?n.setAttribute(i,s):s!=null&&(n[i]=s)}e++}for(;e<arguments.length;e++)El(n,arguments[e]);return n}function El(n,e){
if(typeof e=="string")n.appendChild(document.createTextNode(e));else if(e!=null)if(e.nodeType!=null)n.appendChild(e);else if(Array.
isArray(e))for(var t=0;t<e.length;t++)El(n,e[t]);else throw new RangeError("Unsupported child node: "+e)}var he=typeof navigator<"u"?navigator:{userAgent:"",vendor:"",platform:""},rr=typeof document<"u"?document:{documentElement:{
style:{}}},or=/Edge\/(\d+)/.exec(he.userAgent),ua=/MSIE \d/.test(he.userAgent),lr=/Trident\/(?:[7-9]|\d{2,})\..*rv:(\d+)/.
exec(he.userAgent),jn=!!(ua||lr||or),Rl=!jn&&/gecko\/(\d+)/i.test(he.userAgent),Qs=!jn&&/Chrome\/(\d+)/.exec(he.userAgent),
Pl="webkitFontSmoothing"in rr.documentElement.style,ar=!jn&&/Apple Computer/.test(he.vendor),Il=ar&&(/Mobile\/\w+/.test(
he.userAgent)||he.maxTouchPoints>2),v={mac:Il||/Mac/.test(he.platform),windows:/Win/.test(he.platform),linux:/Linux|X11/.
test(he.platform),ie:jn,ie_version:ua?rr.documentMode||6:lr?+lr[1]:or?+or[1]:0,gecko:Rl,gecko_version:Rl?+(/Firefox\/(\d+)/.
exec(he.userAgent)||[0,0])[1]:0,chrome:!!Qs,chrome_version:Qs?+Qs[1]:0,ios:Il,android:/Android\b/.test(he.userAgent),webkit:Pl,
webkit_version:Pl?+(/\bAppleWebKit\/(\d+)/.exec(he.userAgent)||[0,0])[1]:0,safari:ar,safari_version:ar?+(/\bVersion\/(\d+(\.\d+)?)/.
exec(he.userAgent)||[0,0])[1]:0,tabSize:rr.documentElement.style.tabSize!=null?"tab-size":"-moz-tab-size"};function Yr(n,e){
for(let t in n)t=="class"&&e.class?e.class+=" "+n.class:t=="style"&&e.style?e.style+=";"+n.style:e[t]=n[t];return e}var Dn=Object.
create(null);function Xr(n,e,t){if(n==e)return!0;n||(n=Dn),e||(e=Dn);let i=Object.keys(n),s=Object.keys(e);if(i.length-0!=
s.length-0)return!1;for(let r of i)if(r!=t&&(s.indexOf(r)==-1||n[r]!==e[r]))return!1;return!0}function Af(n,e){for(let t=n.
attributes.length-1;t>=0;t--){let i=n.attributes[t].name;e[i]==null&&n.removeAttribute(i)}for(let t in e){let i=e[t];t==
"style"?n.style.cssText=i:n.getAttribute(t)!=i&&n.setAttribute(t,i)}}function Nl(n,e,t){let i=!1;if(e)for(let s in e)t&&
s in t||(i=!0,s=="style"?n.style.cssText="":n.removeAttribute(s));if(t)for(let s in t)e&&e[s]==t[s]||(i=!0,s=="style"?n.
style.cssText=t[s]:n.setAttribute(s,t[s]));return i}function Mf(n){let e=Object.create(null);for(let t=0;t<n.attributes.
length;t++){let i=n.attributes[t];e[i.name]=i.value}return e}var et=class{eq(e){return!1}updateDOM(e,t,i){return!1}compare(e){
return this==e||this.constructor==e.constructor&&this.eq(e)}get estimatedHeight(){return-1}get lineBreaks(){return 0}ignoreEvent(e){
return!0}coordsAt(e,t,i){return null}get isHidden(){return!1}get editable(){return!1}destroy(e){}},de=(function(n){return n[n.
Text=0]="Text",n[n.WidgetBefore=1]="WidgetBefore",n[n.WidgetAfter=2]="WidgetAfter",n[n.WidgetRange=3]="WidgetRange",n})(
de||(de={})),L=class extends Ve{constructor(e,t,i,s){super(),this.startSide=e,this.endSide=t,this.widget=i,this.spec=s}get heightRelevant(){
return!1}static mark(e){return new Bi(e)}static widget(e){let t=Math.max(-1e4,Math.min(1e4,e.side||0)),i=!!e.block;return t+=
i&&!e.inlineOrder?t>0?3e8:-4e8:t>0?1e8:-1e8,new At(e,t,t,i,e.widget||null,!1)}static replace(e){let t=!!e.block,i,s;if(e.
isBlockGap)i=-5e8,s=4e8;else{let{start:r,end:o}=da(e,t);i=(r?t?-3e8:-1:5e8)-1,s=(o?t?2e8:1:-6e8)+1}return new At(e,i,s,t,
e.widget||null,!0)}static line(e){return new Li(e)}static set(e,t=!1){return F.of(e,t)}hasHeight(){return this.widget?this.
widget.estimatedHeight>-1:!1}};L.none=F.empty;var Bi=class n extends L{constructor(e){let{start:t,end:i}=da(e);super(t?-1:
5e8,i?1:-6e8,null,e),this.tagName=e.tagName||"span",this.attrs=e.class&&e.attributes?Yr(e.attributes,{class:e.class}):e.
class?{class:e.class}:e.attributes||Dn}eq(e){return this==e||e instanceof n&&this.tagName==e.tagName&&Xr(this.attrs,e.attrs)}range(e,t=e){
if(e>=t)throw new RangeError("Mark decorations may not be empty");return super.range(e,t)}};Bi.prototype.point=!1;var Li=class n extends L{constructor(e){
super(-2e8,-2e8,null,e)}eq(e){return e instanceof n&&this.spec.class==e.spec.class&&Xr(this.spec.attributes,e.spec.attributes)}range(e,t=e){
if(t!=e)throw new RangeError("Line decoration ranges must be zero-length");return super.range(e,t)}};Li.prototype.mapMode=
le.TrackBefore;Li.prototype.point=!0;var At=class n extends L{constructor(e,t,i,s,r,o){super(t,i,r,e),this.block=s,this.
isReplace=o,this.mapMode=s?t<=0?le.TrackBefore:le.TrackAfter:le.TrackDel}get type(){return this.startSide!=this.endSide?
de.WidgetRange:this.startSide<=0?de.WidgetBefore:de.WidgetAfter}get heightRelevant(){return this.block||!!this.widget&&(this.
widget.estimatedHeight>=5||this.widget.lineBreaks>0)}eq(e){return e instanceof n&&Tf(this.widget,e.widget)&&this.block==
e.block&&this.startSide==e.startSide&&this.endSide==e.endSide}range(e,t=e){if(this.isReplace&&(e>t||e==t&&this.startSide>
0&&this.endSide<=0))throw new RangeError("Invalid range for replacement decoration");if(!this.isReplace&&t!=e)throw new RangeError(
"Widget decorations can only have zero-length ranges");return super.range(e,t)}};At.prototype.point=!0;function da(n,e=!1){
let{inclusiveStart:t,inclusiveEnd:i}=n;return t==null&&(t=n.inclusive),i==null&&(i=n.inclusive),{start:t??e,end:i??e}}function Tf(n,e){
return n==e||!!(n&&e&&n.compare(e))}function Xt(n,e,t,i=0){let s=t.length-1;s>=0&&t[s]+i>=n?t[s]=Math.max(t[s],e):t.push(
n,e)}var On=class n extends Ve{constructor(e,t,i){super(),this.tagName=e,this.attributes=t,this.rank=i}eq(e){return e==this||
e instanceof n&&this.tagName==e.tagName&&Xr(this.attributes,e.attributes)}static create(e){return new n(e.tagName,e.attributes||
Dn,e.rank==null?50:Math.max(0,Math.min(e.rank,100)))}static set(e,t=!1){return F.of(e,t)}};On.prototype.startSide=On.prototype.
endSide=-1;var te=n=>n.nodeType==1,Qt=n=>n.nodeType==3;function Ei(n){let e;return n.nodeType==11?e=n.getSelection?n:n.ownerDocument:
e=n,e.getSelection()}function hr(n,e){return e?n==e||n.contains(e.nodeType!=1?e.parentNode:e):!1}function ki(n,e){if(!e.
anchorNode)return!1;try{return hr(n,e.anchorNode)}catch{return!1}}function Cn(n){return Qt(n)?Ri(n,0,n.nodeValue.length).
getClientRects():te(n)?n.getClientRects():[]}function vi(n,e,t,i){return t?Fl(n,e,t,i,-1)||Fl(n,e,t,i,1):!1}function ot(n){
for(var e=0;;e++)if(n=n.previousSibling,!n)return e}function Bn(n){return te(n)&&/^(DIV|P|LI|UL|OL|BLOCKQUOTE|DD|DT|H\d|SECTION|PRE)$/.
test(n.nodeName)}function Fl(n,e,t,i,s){for(;;){if(n==t&&e==i)return!0;if(e==(s<0?0:tt(n))){if(n.nodeName=="DIV")return!1;
let r=n.parentNode;if(!r||!te(r))return!1;e=ot(n)+(s<0?0:1),n=r}else if(te(n)){if(n=n.childNodes[e+(s<0?-1:0)],te(n)&&(n.
nodeName=="IMG"||n.nodeName=="BR"||n.contentEditable=="false"))return!1;e=s<0?tt(n):0}else return!1}}function tt(n){return Qt(
n)?n.nodeValue.length:n.childNodes.length}function Ln(n,e){let{left:t,right:i}=n;if(t==i)return n;let s=e?t:i;return{left:s,
right:s,top:n.top,bottom:n.bottom}}function Df(n){let e=n.visualViewport;return e?{left:0,right:e.width,top:0,bottom:e.height}:
{left:0,right:n.innerWidth,top:0,bottom:n.innerHeight}}function pa(n,e){let t=e.width/n.offsetWidth,i=e.height/n.offsetHeight;
return(t>.995&&t<1.005||!isFinite(t)||Math.abs(e.width-n.offsetWidth)<1)&&(t=1),(i>.995&&i<1.005||!isFinite(i)||Math.abs(
e.height-n.offsetHeight)<1)&&(i=1),{scaleX:t,scaleY:i}}function Of(n,e,t,i,s,r,o,l){let a=n.ownerDocument,h=a.defaultView||
window;for(let c=n,f=!1;c&&!f;)if(te(c)){let u,d=c==a.body,p=1,g=1,m=!0,y=!0;if(d)u=Df(h);else{let T=getComputedStyle(c);
if(/^(fixed|sticky)$/.test(T.position)&&(f=!0),(c.scrollHeight<=c.clientHeight||!/auto|scroll/.test(T.overflowY))&&(y=!1),
(c.scrollWidth<=c.clientWidth||!/auto|scroll/.test(T.overflowX))&&(m=!1),!m&&!y){c=c.assignedSlot||c.parentNode;continue}
let S=c.getBoundingClientRect();({scaleX:p,scaleY:g}=pa(c,S)),u={left:S.left,right:S.left+c.clientWidth*p,top:S.top,bottom:S.
top+c.clientHeight*g}}let A=0,b=0;if(y)if(s=="nearest")e.top<u.top+o?(b=e.top-(u.top+o),t>0&&e.bottom>u.bottom+b&&(b=e.bottom-
u.bottom+o)):e.bottom>u.bottom-o&&(b=e.bottom-u.bottom+o,t<0&&e.top-b<u.top&&(b=e.top-(u.top+o)));else{let T=e.bottom-e.
top,S=u.bottom-u.top;b=(s=="center"&&T<=S?e.top+T/2-S/2:s=="start"||s=="center"&&t<0?e.top-o:e.bottom-S+o)-u.top}if(m&&(i==
"nearest"?e.left<u.left+r?(A=e.left-(u.left+r),t>0&&e.right>u.right+A&&(A=e.right-u.right+r)):e.right>u.right-r&&(A=e.right-
u.right+r,t<0&&e.left<u.left+A&&(A=e.left-(u.left+r))):A=(i=="center"?e.left+(e.right-e.left)/2-(u.right-u.left)/2:i=="s\
tart"==l?e.left-r:e.right-(u.right-u.left)+r)-u.left),A||b)if(d)h.scrollBy(A,b);else{let T=0,S=0;if(b){let D=c.scrollTop;
c.scrollTop+=b/g,S=(c.scrollTop-D)*g}if(A){let D=c.scrollLeft;c.scrollLeft+=A/p,T=(c.scrollLeft-D)*p}e={left:e.left-T,top:e.
top-S,right:e.right-T,bottom:e.bottom-S},T&&Math.abs(T-A)<1&&(i="nearest"),S&&Math.abs(S-b)<1&&(s="nearest")}if(d)break;
(e.top<u.top||e.bottom>u.bottom||e.left<u.left||e.right>u.right)&&(e={left:Math.max(e.left,u.left),right:Math.min(e.right,
u.right),top:Math.max(e.top,u.top),bottom:Math.min(e.bottom,u.bottom)}),c=c.assignedSlot||c.parentNode}else if(c.nodeType==
11)c=c.host;else break}function ga(n,e=!0){let t=n.ownerDocument,i=null,s=null;for(let r=n.parentNode;r&&!(r==t.body||(!e||
i)&&s);)if(te(r))!s&&r.scrollHeight>r.clientHeight&&/scroll|auto/.test(getComputedStyle(r).overflowY)&&(s=r),e&&!i&&r.scrollWidth>
r.clientWidth&&/scroll|auto/.test(getComputedStyle(r).overflowX)&&(i=r),r=r.assignedSlot||r.parentNode;else if(r.nodeType==
11)r=r.host;else break;return{x:i,y:s}}var cr=class{constructor(){this.anchorNode=null,this.anchorOffset=0,this.focusNode=
null,this.focusOffset=0}eq(e){return this.anchorNode==e.anchorNode&&this.anchorOffset==e.anchorOffset&&this.focusNode==e.
focusNode&&this.focusOffset==e.focusOffset}setRange(e){let{anchorNode:t,focusNode:i}=e;this.set(t,Math.min(e.anchorOffset,
t?tt(t):0),i,Math.min(e.focusOffset,i?tt(i):0))}set(e,t,i,s){this.anchorNode=e,this.anchorOffset=t,this.focusNode=i,this.
focusOffset=s}};function ma(n){let e=[];for(let t=n;t;t=t.nodeType==11?t.host:t.parentNode)te(t)&&e.push({node:t,left:t.
scrollLeft,top:t.scrollTop});return e}function ya(n,e=!0){for(let{node:t,left:i,top:s}of n)e&&t.scrollTop!=s&&(t.scrollTop=
s),t.scrollLeft!=i&&(t.scrollLeft=i)}var St=null;v.safari&&v.safari_version>=26&&(St=!1);function ba(n){if(n.setActive)return n.
setActive();if(St)return n.focus(St);let e=ma(n);n.focus(St==null?{get preventScroll(){return St={preventScroll:!0},!0}}:
void 0),St||(St=!1,ya(e))}var Hl;function Ri(n,e,t=e){let i=Hl||(Hl=document.createRange());return i.setEnd(n,t),i.setStart(
n,e),i}function Jt(n,e,t,i){let s={key:e,code:e,keyCode:t,which:t,cancelable:!0};i&&({altKey:s.altKey,ctrlKey:s.ctrlKey,
shiftKey:s.shiftKey,metaKey:s.metaKey}=i);let r=new KeyboardEvent("keydown",s);r.synthetic=!0,n.dispatchEvent(r);let o=new KeyboardEvent(
"keyup",s);return o.synthetic=!0,n.dispatchEvent(o),r.defaultPrevented||o.defaultPrevented}function Bf(n){for(;n;){if(n&&
(n.nodeType==9||n.nodeType==11&&n.host))return n;n=n.assignedSlot||n.parentNode}return null}function Lf(n,e){let t=e.focusNode,
i=e.focusOffset;if(!t||e.anchorNode!=t||e.anchorOffset!=i)return!1;for(i=Math.min(i,tt(t));;)if(i){if(!te(t))return!1;let s=t.
childNodes[i-1];s.contentEditable=="false"?i--:(t=s,i=tt(t))}else{if(t==n)return!0;i=ot(t),t=t.parentNode}}function xa(n){
return n instanceof Window?n.pageYOffset>Math.max(0,n.document.documentElement.scrollHeight-n.innerHeight-4):n.scrollTop>
Math.max(1,n.scrollHeight-n.clientHeight-4)}function wa(n,e){for(let t=n,i=e;;){if(Qt(t)&&i>0)return{node:t,offset:i};if(te(
t)&&i>0){if(t.contentEditable=="false")return null;t=t.childNodes[i-1],i=tt(t)}else if(t.parentNode&&!Bn(t))i=ot(t),t=t.
parentNode;else return null}}function ka(n,e){for(let t=n,i=e;;){if(Qt(t)&&i<t.nodeValue.length)return{node:t,offset:i};
if(te(t)&&i<t.childNodes.length){if(t.contentEditable=="false")return null;t=t.childNodes[i],i=0}else if(t.parentNode&&!Bn(
t))i=ot(t)+1,t=t.parentNode;else return null}}var qe=class n{constructor(e,t,i=!0){this.node=e,this.offset=t,this.precise=
i}static before(e,t){return new n(e.parentNode,ot(e),t)}static after(e,t){return new n(e.parentNode,ot(e)+1,t)}},K=(function(n){
return n[n.LTR=0]="LTR",n[n.RTL=1]="RTL",n})(K||(K={})),Zt=K.LTR,Jr=K.RTL;function va(n){let e=[];for(let t=0;t<n.length;t++)
e.push(1<<+n[t]);return e}var Ef=va("88888888888888888888888888888888888666888888787833333333337888888000000000000000000\
000000008888880000000000000000000000000088888888888888888888888888888888888887866668888088888663380888308888800000000000\
000000000000800000000000000000000000000000008"),Rf=va("44444488266272889999999999922222222222222222222222222222222222222\
222222222299999999999999999999944444444446442228222222222222222222222222222222222222222222222222222222222222222222222222\
22222222222222222222222222222999999949999999229989999223333333333"),fr=Object.create(null),ze=[];for(let n of["()","[]",
"{}"]){let e=n.charCodeAt(0),t=n.charCodeAt(1);fr[e]=t,fr[t]=-e}function Sa(n){return n<=247?Ef[n]:1424<=n&&n<=1524?2:1536<=
n&&n<=1785?Rf[n-1536]:1774<=n&&n<=2220?4:8192<=n&&n<=8204?256:64336<=n&&n<=65023?4:1}var Pf=/[\u0590-\u05f4\u0600-\u06ff\u0700-\u08ac\ufb50-\ufdff]/,
Me=class{get dir(){return this.level%2?Jr:Zt}constructor(e,t,i){this.from=e,this.to=t,this.level=i}side(e,t){return this.
dir==t==e?this.to:this.from}forward(e,t){return e==(this.dir==t)}static find(e,t,i,s){let r=-1;for(let o=0;o<e.length;o++){
let l=e[o];if(l.from<=t&&l.to>=t){if(l.level==i)return o;(r<0||(s!=0?s<0?l.from<t:l.to>t:e[r].level>l.level))&&(r=o)}}if(r<
0)throw new RangeError("Index out of range");return r}};function Ca(n,e){if(n.length!=e.length)return!1;for(let t=0;t<n.
length;t++){let i=n[t],s=e[t];if(i.from!=s.from||i.to!=s.to||i.direction!=s.direction||!Ca(i.inner,s.inner))return!1}return!0}
var z=[];function If(n,e,t,i,s){for(let r=0;r<=i.length;r++){let o=r?i[r-1].to:e,l=r<i.length?i[r].from:t,a=r?256:s;for(let h=o,
c=a,f=a;h<l;h++){let u=Sa(n.charCodeAt(h));u==512?u=c:u==8&&f==4&&(u=16),z[h]=u==4?2:u,u&7&&(f=u),c=u}for(let h=o,c=a,f=a;h<
l;h++){let u=z[h];if(u==128)h<l-1&&c==z[h+1]&&c&24?u=z[h]=c:z[h]=256;else if(u==64){let d=h+1;for(;d<l&&z[d]==64;)d++;let p=h&&
c==8||d<t&&z[d]==8?f==1?1:8:256;for(let g=h;g<d;g++)z[g]=p;h=d-1}else u==8&&f==1&&(z[h]=1);c=u,u&7&&(f=u)}}}function Nf(n,e,t,i,s){
let r=s==1?2:1;for(let o=0,l=0,a=0;o<=i.length;o++){let h=o?i[o-1].to:e,c=o<i.length?i[o].from:t;for(let f=h,u,d,p;f<c;f++)
if(d=fr[u=n.charCodeAt(f)])if(d<0){for(let g=l-3;g>=0;g-=3)if(ze[g+1]==-d){let m=ze[g+2],y=m&2?s:m&4?m&1?r:s:0;y&&(z[f]=
z[ze[g]]=y),l=g;break}}else{if(ze.length==189)break;ze[l++]=f,ze[l++]=u,ze[l++]=a}else if((p=z[f])==2||p==1){let g=p==s;
a=g?0:1;for(let m=l-3;m>=0;m-=3){let y=ze[m+2];if(y&2)break;if(g)ze[m+2]|=2;else{if(y&4)break;ze[m+2]|=4}}}}}function Ff(n,e,t,i){
for(let s=0,r=i;s<=t.length;s++){let o=s?t[s-1].to:n,l=s<t.length?t[s].from:e;for(let a=o;a<l;){let h=z[a];if(h==256){let c=a+
1;for(;;)if(c==l){if(s==t.length)break;c=t[s++].to,l=s<t.length?t[s].from:e}else if(z[c]==256)c++;else break;let f=r==1,
u=(c<e?z[c]:i)==1,d=f==u?f?1:2:i;for(let p=c,g=s,m=g?t[g-1].to:n;p>a;)p==m&&(p=t[--g].from,m=g?t[g-1].to:n),z[--p]=d;a=c}else
r=h,a++}}}function ur(n,e,t,i,s,r,o){let l=i%2?2:1;if(i%2==s%2)for(let a=e,h=0;a<t;){let c=!0,f=!1;if(h==r.length||a<r[h].
from){let g=z[a];g!=l&&(c=!1,f=g==16)}let u=!c&&l==1?[]:null,d=c?i:i+1,p=a;e:for(;;)if(h<r.length&&p==r[h].from){if(f)break e;
let g=r[h];if(!c)for(let m=g.to,y=h+1;;){if(m==t)break e;if(y<r.length&&r[y].from==m)m=r[y++].to;else{if(z[m]==l)break e;
break}}if(h++,u)u.push(g);else{g.from>a&&o.push(new Me(a,g.from,d));let m=g.direction==Zt!=!(d%2);dr(n,m?i+1:i,s,g.inner,
g.from,g.to,o),a=g.to}p=g.to}else{if(p==t||(c?z[p]!=l:z[p]==l))break;p++}u?ur(n,a,p,i+1,s,u,o):a<p&&o.push(new Me(a,p,d)),
a=p}else for(let a=t,h=r.length;a>e;){let c=!0,f=!1;if(!h||a>r[h-1].to){let g=z[a-1];g!=l&&(c=!1,f=g==16)}let u=!c&&l==1?
[]:null,d=c?i:i+1,p=a;e:for(;;)if(h&&p==r[h-1].to){if(f)break e;let g=r[--h];if(!c)for(let m=g.from,y=h;;){if(m==e)break e;
if(y&&r[y-1].to==m)m=r[--y].from;else{if(z[m-1]==l)break e;break}}if(u)u.push(g);else{g.to<a&&o.push(new Me(g.to,a,d));let m=g.
direction==Zt!=!(d%2);dr(n,m?i+1:i,s,g.inner,g.from,g.to,o),a=g.from}p=g.from}else{if(p==e||(c?z[p-1]!=l:z[p-1]==l))break;
p--}u?ur(n,p,a,i+1,s,u,o):p<a&&o.push(new Me(p,a,d)),a=p}}function dr(n,e,t,i,s,r,o){let l=e%2?2:1;If(n,s,r,i,l),Nf(n,s,
r,i,l),Ff(s,r,i,l),ur(n,s,r,e,t,i,o)}function Hf(n,e,t){if(!n)return[new Me(0,0,e==Jr?1:0)];if(e==Zt&&!t.length&&!Pf.test(
n))return Aa(n.length);if(t.length)for(;n.length>z.length;)z[z.length]=256;let i=[],s=e==Zt?0:1;return dr(n,s,s,t,0,n.length,
i),i}function Aa(n){return[new Me(0,n,0)]}var Ma="";function Wf(n,e,t,i,s){var r;if(!n.length)return null;let o=i.head-n.
from,l;if(i.head==n.from&&i.assoc<0){if(!s)return null;o=e[l=0].side(!1,t)}else if(i.head==n.to&&i.assoc>0){if(s)return null;
o=e[l=e.length-1].side(!0,t)}else l=Me.find(e,o,(r=i.bidiLevel)!==null&&r!==void 0?r:-1,i.assoc);let a=e[l],h=a.side(s,t);
if(o==h){let u=l+=s?1:-1;if(u<0||u>=e.length)return null;a=e[l=u],o=a.side(!s,t),h=a.side(s,t)}let c=Q(n.text,o,a.forward(
s,t));(c<a.from||c>a.to)&&(c=h),Ma=n.text.slice(Math.min(o,c),Math.max(o,c));let f=l==(s?e.length-1:0)?null:e[l+(s?1:-1)];
if(c==h){if(!f)return s?x.cursor(n.to,1):x.cursor(n.from,-1);if(f.level+(s?0:1)<a.level)return x.cursor(f.side(!s,t)+n.from,
f.forward(s,t)?1:-1,f.level)}return x.cursor(c+n.from,a.forward(s,t)?-1:1,a.level)}function Vf(n,e,t){for(let i=e;i<t;i++){
let s=Sa(n.charCodeAt(i));if(s==1)return Zt;if(s==2||s==4)return Jr}}var Ta=C.define(),Da=C.define(),Oa=C.define(),Ba=C.
define(),pr=C.define(),La=C.define(),Ea=C.define(),Qr=C.define(),Zr=C.define(),Ra=C.define({combine:n=>n.some(e=>e)}),zf=C.
define({combine:n=>n.some(e=>e)}),Pa=C.define(),Si=class n{constructor(e,t,i,s,r,o=!1){this.range=e,this.y=t,this.x=i,this.
yMargin=s,this.xMargin=r,this.isSnapshot=o}map(e){return e.empty?this:new n(this.range.map(e),this.y,this.x,this.yMargin,
this.xMargin,this.isSnapshot)}clip(e){return this.range.to<=e.doc.length?this:new n(x.cursor(e.doc.length),this.y,this.x,
this.yMargin,this.xMargin,this.isSnapshot)}},gn=R.define({map:(n,e)=>n.map(e)}),Ia=R.define();function ge(n,e,t){let i=n.
facet(Ba);i.length?i[0](e):window.onerror&&window.onerror(String(e),t,void 0,void 0,e)||(t?console.error(t+":",e):console.
error(e))}var Qe=C.define({combine:n=>n.length?n[0]:!0}),qf=0,Gt=C.define({combine(n){return n.filter((e,t)=>{for(let i=0;i<
t;i++)if(n[i].plugin==e.plugin)return!1;return!0})}}),se=class n{constructor(e,t,i,s,r){this.id=e,this.create=t,this.domEventHandlers=
i,this.domEventObservers=s,this.baseExtensions=r(this),this.extension=this.baseExtensions.concat(Gt.of({plugin:this,arg:void 0}))}of(e){
return this.baseExtensions.concat(Gt.of({plugin:this,arg:e}))}static define(e,t){let{eventHandlers:i,eventObservers:s,provide:r,
decorations:o}=t||{};return new n(qf++,e,i,s,l=>{let a=[];return o&&a.push(Gn.of(h=>{let c=h.plugin(l);return c?o(c):L.none})),
r&&a.push(r(l)),a})}static fromClass(e,t){return n.define((i,s)=>new e(i,s),t)}},Ci=class{constructor(e){this.spec=e,this.
mustUpdate=null,this.value=null}get plugin(){return this.spec&&this.spec.plugin}update(e){if(this.value){if(this.mustUpdate){
let t=this.mustUpdate;if(this.mustUpdate=null,this.value.update)try{this.value.update(t)}catch(i){if(ge(t.state,i,"CodeM\
irror plugin crashed"),this.value.destroy)try{this.value.destroy()}catch{}this.deactivate()}}}else if(this.spec)try{this.
value=this.spec.plugin.create(e,this.spec.arg)}catch(t){ge(e.state,t,"CodeMirror plugin crashed"),this.deactivate()}return this}destroy(e){
var t;if(!((t=this.value)===null||t===void 0)&&t.destroy)try{this.value.destroy()}catch(i){ge(e.state,i,"CodeMirror plug\
in crashed")}}deactivate(){this.spec=this.value=null}},Na=C.define(),eo=C.define(),Gn=C.define(),Fa=C.define(),to=C.define(),
Pi=C.define(),Ha=C.define();function Wl(n,e){let t=n.state.facet(Ha);if(!t.length)return t;let i=t.map(r=>r instanceof Function?
r(n):r),s=[];return F.spans(i,e.from,e.to,{point(){},span(r,o,l,a){let h=r-e.from,c=o-e.from,f=s;for(let u=l.length-1;u>=
0;u--,a--){let d=l[u].spec.bidiIsolate,p;if(a>0&&f.length&&(p=f[f.length-1]).to==h&&p.direction==d)p.to=c,f=p.inner;else{
let g={from:h,to:c,direction:d,inner:[]};f.push(g),f=g.inner}}}}),Wa(e.text,s)}function Wa(n,e){for(let t of e){if(t.direction==
null){for(let i=t.from,s=0;i<t.to;s++){let r=s<t.inner.length?t.inner[s]:null,o=Vf(n,i,r?r.from:t.to);if(o){t.direction=
o;break}if(!r)break;i=r.to}t.direction==null&&(t.direction=K.LTR)}Wa(n,t.inner)}return e}var Va=C.define();function io(n){
let e=0,t=0,i=0,s=0;for(let r of n.state.facet(Va)){let o=r(n);o&&(o.left!=null&&(e=Math.max(e,o.left)),o.right!=null&&(t=
Math.max(t,o.right)),o.top!=null&&(i=Math.max(i,o.top)),o.bottom!=null&&(s=Math.max(s,o.bottom)))}return{left:e,right:t,
top:i,bottom:s}}var xi=C.define(),Ee=class n{constructor(e,t,i,s){this.fromA=e,this.toA=t,this.fromB=i,this.toB=s}join(e){
return new n(Math.min(this.fromA,e.fromA),Math.max(this.toA,e.toA),Math.min(this.fromB,e.fromB),Math.max(this.toB,e.toB))}addToSet(e){
let t=e.length,i=this;for(;t>0;t--){let s=e[t-1];if(!(s.fromA>i.toA)){if(s.toA<i.fromA)break;i=i.join(s),e.splice(t-1,1)}}
return e.splice(t,0,i),e}static extendWithRanges(e,t){if(t.length==0)return e;let i=[];for(let s=0,r=0,o=0;;){let l=s<e.
length?e[s].fromB:1e9,a=r<t.length?t[r]:1e9,h=Math.min(l,a);if(h==1e9)break;let c=h+o,f=h,u=c;for(;;)if(r<t.length&&t[r]<=
f){let d=t[r+1];r+=2,f=Math.max(f,d);for(let p=s;p<e.length&&e[p].fromB<=f;p++)o=e[p].toA-e[p].toB;u=Math.max(u,d+o)}else if(s<
e.length&&e[s].fromB<=f){let d=e[s++];f=Math.max(f,d.toB),u=Math.max(u,d.toA),o=d.toA-d.toB}else break;i.push(new n(c,u,
h,f))}return i}},En=class n{constructor(e,t,i){this.view=e,this.state=t,this.transactions=i,this.flags=0,this.startState=
e.state,this.changes=ae.empty(this.startState.doc.length);for(let r of i)this.changes=this.changes.compose(r.changes);let s=[];
this.changes.iterChangedRanges((r,o,l,a)=>s.push(new Ee(r,o,l,a))),this.changedRanges=s}static create(e,t,i){return new n(
e,t,i)}get viewportChanged(){return(this.flags&4)>0}get viewportMoved(){return(this.flags&8)>0}get heightChanged(){return(this.
flags&2)>0}get geometryChanged(){return this.docChanged||(this.flags&18)>0}get focusChanged(){return(this.flags&1)>0}get docChanged(){
return!this.changes.empty}get selectionSet(){return this.transactions.some(e=>e.selection)}get empty(){return this.flags==
0&&this.transactions.length==0}},Kf=[],G=class{constructor(e,t,i=0){this.dom=e,this.length=t,this.flags=i,this.parent=null,
e.cmTile=this}get breakAfter(){return this.flags&1}get children(){return Kf}isWidget(){return!1}get isHidden(){return!1}isComposite(){
return!1}isLine(){return!1}isText(){return!1}isBlock(){return!1}get domAttrs(){return null}sync(e){if(this.flags|=2,this.
flags&4){this.flags&=-5;let t=this.domAttrs;t&&Af(this.dom,t)}}toString(){return this.constructor.name+(this.children.length?
`(${this.children})`:"")+(this.breakAfter?"#":"")}destroy(){this.parent=null}setDOM(e){this.dom=e,e.cmTile=this}get posAtStart(){
return this.parent?this.parent.posBefore(this):0}get posAtEnd(){return this.posAtStart+this.length}posBefore(e,t=this.posAtStart){
let i=t;for(let s of this.children){if(s==e)return i;i+=s.length+s.breakAfter}throw new RangeError("Invalid child in pos\
Before")}posAfter(e){return this.posBefore(e)+e.length}covers(e){return!0}coordsIn(e,t,i){return null}domPosFor(e,t){let i=ot(
this.dom),s=this.length?e>0:t>0;return new qe(this.parent.dom,i+(s?1:0),e==0||e==this.length)}markDirty(e){this.flags&=-3,
e&&(this.flags|=4),this.parent&&this.parent.flags&2&&this.parent.markDirty(!1)}get overrideDOMText(){return null}get root(){
for(let e=this;e;e=e.parent)if(e instanceof ti)return e;return null}static get(e){return e.cmTile}},ei=class extends G{constructor(e){
super(e,0),this._children=[]}isComposite(){return!0}get children(){return this._children}get lastChild(){return this.children.
length?this.children[this.children.length-1]:null}append(e){this.children.push(e),e.parent=this}sync(e){if(this.flags&2)
return;super.sync(e);let t=this.dom,i=null,s,r=e?.node==t?e:null,o=0;for(let l of this.children){if(l.sync(e),o+=l.length+
l.breakAfter,s=i?i.nextSibling:t.firstChild,r&&s!=l.dom&&(r.written=!0),l.dom.parentNode==t)for(;s&&s!=l.dom;)s=Vl(s);else
t.insertBefore(l.dom,s);i=l.dom}for(s=i?i.nextSibling:t.firstChild,r&&s&&(r.written=!0);s;)s=Vl(s);this.length=o}};function Vl(n){
let e=n.nextSibling;return n.parentNode.removeChild(n),e}var ti=class extends ei{constructor(e,t){super(t),this.view=e}owns(e){
for(;e;e=e.parent)if(e==this)return!0;return!1}isBlock(){return!0}nearest(e){for(;;){if(!e)return null;let t=G.get(e);if(t&&
this.owns(t))return t;e=e.parentNode}}blockTiles(e){for(let t=[],i=this,s=0,r=0;;)if(s==i.children.length){if(!t.length)
return;i=i.parent,i.breakAfter&&r++,s=t.pop()}else{let o=i.children[s++];if(o instanceof Ze)t.push(s),i=o,s=0;else{let l=r+
o.length,a=e(o,r);if(a!==void 0)return a;r=l+o.breakAfter}}}resolveBlock(e,t){let i,s=-1,r,o=-1;if(this.blockTiles((l,a)=>{
let h=a+l.length;if(e>=a&&e<=h){if(l.isWidget()&&t>=-1&&t<=1){if(l.flags&32)return!0;l.flags&16&&(i=void 0)}(a<e||e==h&&
(t<-1?l.length:l.covers(1)))&&(!i||!l.isWidget()&&i.isWidget())&&(i=l,s=e-a),(h>e||e==a&&(t>1?l.length:l.covers(-1)))&&(!r||
!l.isWidget()&&r.isWidget())&&(r=l,o=e-a)}}),!i&&!r)throw new Error("No tile at position "+e);return i&&t<0||!r?{tile:i,
offset:s}:{tile:r,offset:o}}},Ze=class n extends ei{constructor(e,t){super(e),this.wrapper=t}isBlock(){return!0}covers(e){
return this.children.length?e<0?this.children[0].covers(-1):this.lastChild.covers(1):!1}get domAttrs(){return this.wrapper.
attributes}static of(e,t){let i=new n(t||document.createElement(e.tagName),e);return t||(i.flags|=4),i}},ii=class n extends ei{constructor(e,t){
super(e),this.attrs=t}isLine(){return!0}static start(e,t,i){let s=new n(t||document.createElement("div"),e);return(!t||!i)&&
(s.flags|=4),s}get domAttrs(){return this.attrs}resolveInline(e,t,i=!1){let s=null,r=-1,o=null,l=-1;function a(c,f){for(let u=0,
d=0;u<c.children.length&&d<=f;u++){let p=c.children[u],g=d+p.length;g>=f&&(p.isComposite()?a(p,f-d):(!o||i&&o.isHidden&&
(t>0&&!(o.flags&32)||i&&jf(o,p)))&&(g>f||p.flags&32&&t<=1)?(o=p,l=f-d):(d<f||p.flags&16&&!(i&&p.isHidden)&&t>=-1)&&(s=p,
r=f-d)),d=g}}a(this,e);let h=(t<0?s:o)||s||o;return h?{tile:h,offset:h==s?r:l}:null}coordsIn(e,t,i){let s=this.resolveInline(
e,t,!0);return s?s.tile.coordsIn(Math.max(0,s.offset),t,i):$f(this)}domIn(e,t){let i=this.resolveInline(e,t);if(i){let{tile:s,
offset:r}=i;if(this.dom.contains(s.dom))return s.isText()?new qe(s.dom,Math.min(s.dom.nodeValue.length,r)):s.domPosFor(r,
s.flags&16?1:s.flags&32?-1:t);let o=i.tile.parent,l=!1;for(let a of o.children){if(l)return new qe(a.dom,0);a==i.tile&&(l=
!0)}}return new qe(this.dom,0)}};function $f(n){let e=n.dom.lastChild;if(!e)return n.dom.getBoundingClientRect();let t=Cn(
e);return t[t.length-1]||null}function jf(n,e){let t=n.coordsIn(0,1),i=e.coordsIn(0,1);return t&&i&&i.top<t.bottom}var ue=class n extends ei{constructor(e,t){
super(e),this.mark=t}get domAttrs(){return this.mark.attrs}static of(e,t){let i=new n(t||document.createElement(e.tagName),
e);return t||(i.flags|=4),i}},Ct=class n extends G{constructor(e,t){super(e,t.length),this.text=t}sync(e){this.flags&2||
(super.sync(e),this.dom.nodeValue!=this.text&&(e&&e.node==this.dom&&(e.written=!0),this.dom.nodeValue=this.text))}isText(){
return!0}toString(){return JSON.stringify(this.text)}coordsIn(e,t,i){let s=this.dom.nodeValue.length;e>s&&(e=s);let r=e,
o=e,l=0;e==0&&t<0||e==s&&t>=0?v.chrome||v.gecko||(e?(r--,l=1):o<s&&(o++,l=-1)):t<0?r--:o<s&&o++;let a=Ri(this.dom,r,o).getClientRects();
if(!a.length)return null;let h=a[(l?l<0:t>=0)?0:a.length-1];return v.safari&&!l&&h.width==0&&(h=Array.prototype.find.call(
a,c=>c.width)||h),i==null?h:Ln(h,(l?l>0:t<0)==i)}static of(e,t){let i=new n(t||document.createTextNode(e),e);return t||(i.
flags|=2),i}},Mt=class n extends G{constructor(e,t,i,s){super(e,t,s),this.widget=i}isWidget(){return!0}get isHidden(){return this.
widget.isHidden}covers(e){return this.flags&48?!1:(this.flags&(e<0?64:128))>0}coordsIn(e,t){return this.coordsInWidget(e,
t,!1)}coordsInWidget(e,t,i){let s=this.widget.coordsAt(this.dom,e,t);if(s)return s;if(i)return Ln(this.dom.getBoundingClientRect(),
this.length?e==0:t<=0);{let r=this.dom.getClientRects(),o=null;if(!r.length)return null;let l=this.flags&16?!0:this.flags&
32?!1:e>0;for(let a=l?r.length-1:0;o=r[a],!(e>0?a==0:a==r.length-1||o.top<o.bottom);a+=l?-1:1);return Ln(o,!l)}}get overrideDOMText(){
if(!this.length)return P.empty;let{root:e}=this;if(!e)return P.empty;let t=this.posAtStart;return e.view.state.doc.slice(
t,t+this.length)}destroy(){super.destroy(),this.widget.destroy(this.dom)}static of(e,t,i,s,r){return r||(r=e.toDOM(t),e.
editable||(r.contentEditable="false")),new n(r,i,e,s)}},ni=class extends G{constructor(e){let t=document.createElement("\
img");t.className="cm-widgetBuffer",t.setAttribute("aria-hidden","true"),super(t,0,e)}get isHidden(){return!0}get overrideDOMText(){
return P.empty}coordsIn(e,t,i){let s=this.dom.getBoundingClientRect();return i==null?s:Ln(s,t>0==i)}},gr=class{constructor(e){
this.index=0,this.beforeBreak=!1,this.parents=[],this.tile=e}advance(e,t,i){let{tile:s,index:r,beforeBreak:o,parents:l}=this;
for(;e||t>0;)if(s.isComposite())if(o){if(!e)break;i&&i.break(),e--,o=!1}else if(r==s.children.length){if(!e&&!l.length)break;
i&&i.leave(s),o=!!s.breakAfter,{tile:s,index:r}=l.pop(),r++}else{let a=s.children[r],h=a.breakAfter;(t>0?a.length<=e:a.length<
e)&&(!i||i.skip(a,0,a.length)!==!1||!a.isComposite)?(o=!!h,r++,e-=a.length):(l.push({tile:s,index:r}),s=a,r=0,i&&a.isComposite()&&
i.enter(a))}else{let a=s.length;if(r<a&&e){let h=Math.min(e,a-r);i&&i.skip(s,r,r+h),e-=h,r+=h}if(r==a)o=!!s.breakAfter,{
tile:s,index:r}=l.pop(),r++;else if(!e)break}return this.tile=s,this.index=r,this.beforeBreak=o,this}get root(){return this.
parents.length?this.parents[0].tile:this.tile}},mr=class{constructor(e,t,i,s){this.from=e,this.to=t,this.wrapper=i,this.
rank=s}},yr=class{constructor(e,t,i){this.cache=e,this.root=t,this.blockWrappers=i,this.curLine=null,this.lastBlock=null,
this.afterWidget=null,this.pos=0,this.wrappers=[],this.wrapperPos=0}addText(e,t,i,s){var r;this.flushBuffer();let o=this.
ensureMarks(t,i),l=o.lastChild;if(l&&l.isText()&&!(l.flags&8)&&l.length+e.length<512){this.cache.reused.set(l,2);let a=o.
children[o.children.length-1]=new Ct(l.dom,l.text+e);a.parent=o}else o.append(s||Ct.of(e,(r=this.cache.find(Ct))===null||
r===void 0?void 0:r.dom));this.pos+=e.length,this.afterWidget=null}addComposition(e,t){let i=this.curLine;i.dom!=t.line.
dom&&(i.setDOM(this.cache.reused.has(t.line)?Zs(t.line.dom):t.line.dom),this.cache.reused.set(t.line,2));let s=i;for(let l=t.
marks.length-1;l>=0;l--){let a=t.marks[l],h=s.lastChild;if(h instanceof ue&&h.mark.eq(a.mark))h.dom!=a.dom&&h.setDOM(Zs(
a.dom)),s=h;else{let{dom:c}=a;this.cache.reused.get(a)&&G.get(a.dom)&&(c=Zs(a.dom));let f=ue.of(a.mark,c);s.append(f),s=
f}this.cache.reused.set(a,2)}let r=G.get(e.text);r&&this.cache.reused.set(r,2);let o=new Ct(e.text,e.text.nodeValue);o.flags|=
8,this.pos=e.range.toB,s.append(o)}addInlineWidget(e,t,i){let s=this.afterWidget&&e.flags&48&&(this.afterWidget.flags&48)==
(e.flags&48);s||this.flushBuffer();let r=this.ensureMarks(t,i);!s&&!(e.flags&16)&&r.append(this.getBuffer(1)),r.append(e),
this.pos+=e.length,this.afterWidget=e}addMark(e,t,i){this.flushBuffer(),this.ensureMarks(t,i).append(e),this.pos+=e.length,
this.afterWidget=null}addBlockWidget(e){this.getBlockPos().append(e),this.pos+=e.length,this.lastBlock=e,this.endLine()}continueWidget(e){
let t=this.afterWidget||this.lastBlock;t.length+=e,this.pos+=e}addLineStart(e,t){var i;e||(e=za);let s=ii.start(e,t||((i=
this.cache.find(ii))===null||i===void 0?void 0:i.dom),!!t);this.getBlockPos().append(this.lastBlock=this.curLine=s)}addLine(e){
this.getBlockPos().append(e),this.pos+=e.length,this.lastBlock=e,this.endLine()}addBreak(){this.lastBlock.flags|=1,this.
endLine(),this.pos++}addLineStartIfNotCovered(e){this.blockPosCovered()||this.addLineStart(e)}ensureLine(e){this.curLine||
this.addLineStart(e)}ensureMarks(e,t){var i;let s=this.curLine;for(let r=e.length-1;r>=0;r--){let o=e[r],l;if(t>0&&(l=s.
lastChild)&&l instanceof ue&&l.mark.eq(o))s=l,t--;else{let a=ue.of(o,(i=this.cache.find(ue,h=>h.mark.eq(o)))===null||i===
void 0?void 0:i.dom);s.append(a),s=a,t=0}}return s}endLine(){if(this.curLine){this.flushBuffer();let e=this.curLine.lastChild;
(!e||!zl(this.curLine,!1)||e.dom.nodeName!="BR"&&e.isWidget()&&!(v.ios&&zl(this.curLine,!0)))&&this.curLine.append(this.
cache.findWidget(er,0,32)||new Mt(er.toDOM(),0,er,32)),this.curLine=this.afterWidget=null}}updateBlockWrappers(){this.wrapperPos>
this.pos+1e4&&(this.blockWrappers.goto(this.pos),this.wrappers.length=0);for(let e=this.wrappers.length-1;e>=0;e--)this.
wrappers[e].to<this.pos&&this.wrappers.splice(e,1);for(let e=this.blockWrappers;e.value&&e.from<=this.pos;e.next())if(e.
to>=this.pos){let t=e.rank*102+e.value.rank,i=new mr(e.from,e.to,e.value,t),s=this.wrappers.length;for(;s>0&&(this.wrappers[s-
1].rank-i.rank||this.wrappers[s-1].to-i.to)<0;)s--;this.wrappers.splice(s,0,i)}this.wrapperPos=this.pos}getBlockPos(){var e;
this.updateBlockWrappers();let t=this.root;for(let i of this.wrappers){let s=t.lastChild;if(i.from<this.pos&&s instanceof
Ze&&s.wrapper.eq(i.wrapper))t=s;else{let r=Ze.of(i.wrapper,(e=this.cache.find(Ze,o=>o.wrapper.eq(i.wrapper)))===null||e===
void 0?void 0:e.dom);t.append(r),t=r}}return t}blockPosCovered(){let e=this.lastBlock;return e!=null&&!e.breakAfter&&(!e.
isWidget()||(e.flags&160)>0)}getBuffer(e){let t=2|(e<0?16:32),i=this.cache.find(ni,void 0,1);return i&&(i.flags=t),i||new ni(
t)}flushBuffer(){this.afterWidget&&!(this.afterWidget.flags&32)&&(this.afterWidget.parent.append(this.getBuffer(-1)),this.
afterWidget=null)}},br=class{constructor(e){this.skipCount=0,this.text="",this.textOff=0,this.cursor=e.iter()}skip(e){this.
textOff+e<=this.text.length?this.textOff+=e:(this.skipCount+=e-(this.text.length-this.textOff),this.text="",this.textOff=
0)}next(e){if(this.textOff==this.text.length){let{value:s,lineBreak:r,done:o}=this.cursor.next(this.skipCount);if(this.skipCount=
0,o)throw new Error("Ran out of text content when drawing inline views");this.text=s;let l=this.textOff=Math.min(e,s.length);
return r?null:s.slice(0,l)}let t=Math.min(this.text.length,this.textOff+e),i=this.text.slice(this.textOff,t);return this.
textOff=t,i}},Rn=[Mt,ii,Ct,ue,ni,Ze,ti];for(let n=0;n<Rn.length;n++)Rn[n].bucket=n;var xr=class{constructor(e){this.view=
e,this.buckets=Rn.map(()=>[]),this.index=Rn.map(()=>0),this.reused=new Map}add(e){let t=e.constructor.bucket,i=this.buckets[t];
i.length<6?i.push(e):i[this.index[t]=(this.index[t]+1)%6]=e}find(e,t,i=2){let s=e.bucket,r=this.buckets[s],o=this.index[s];
for(let l=0;l<r.length;l++){let a=(l+o)%r.length,h=r[a];if((!t||t(h))&&!this.reused.has(h))return r.splice(a,1),a<o&&this.
index[s]--,this.reused.set(h,i),h}return null}findWidget(e,t,i){let s=this.buckets[0];if(s.length)for(let r=0,o=0;;r++){
if(r==s.length){if(o)return null;o=1,r=0}let l=s[r];if(!this.reused.has(l)&&(o==0?l.widget.compare(e):l.widget.constructor==
e.constructor&&e.updateDOM(l.dom,this.view,l.widget)))return s.splice(r,1),r<this.index[0]&&this.index[0]--,l.widget==e&&
l.length==t&&(l.flags&497)==i?(this.reused.set(l,1),l):(this.reused.set(l,2),new Mt(l.dom,t,e,l.flags&-498|i))}}reuse(e){
return this.reused.set(e,1),e}maybeReuse(e,t=2){if(!this.reused.has(e))return this.reused.set(e,t),e.dom}clear(){for(let e=0;e<
this.buckets.length;e++)this.buckets[e].length=this.index[e]=0}},wr=class{constructor(e,t,i,s,r){this.view=e,this.decorations=
s,this.disallowBlockEffectsFor=r,this.openWidget=!1,this.openMarks=0,this.cache=new xr(e),this.text=new br(e.state.doc),
this.builder=new yr(this.cache,new ti(e,e.contentDOM),F.iter(i)),this.cache.reused.set(t,2),this.old=new gr(t),this.reuseWalker=
{skip:(o,l,a)=>{if(this.cache.add(o),o.isComposite())return!1},enter:o=>this.cache.add(o),leave:()=>{},break:()=>{}}}run(e,t){
let i=t&&this.getCompositionContext(t.text);for(let s=0,r=0,o=0;;){let l=o<e.length?e[o++]:null,a=l?l.fromA:this.old.root.
length;if(a>s){let h=a-s;this.preserve(h,!o,!l),s=a,r+=h}if(!l)break;t&&l.fromA<=t.range.fromA&&l.toA>=t.range.toA?(this.
forward(l.fromA,t.range.fromA,t.range.fromA<t.range.toA?1:-1),this.emit(r,t.range.fromB),this.builder.flushBuffer(),this.
cache.clear(),this.builder.addComposition(t,i),this.text.skip(t.range.toB-t.range.fromB),this.forward(t.range.fromA,l.toA),
this.emit(t.range.toB,l.toB)):(this.forward(l.fromA,l.toA),this.emit(r,l.toB)),r=l.toB,s=l.toA}return this.builder.curLine&&
this.builder.endLine(),this.builder.root}preserve(e,t,i){let s=_f(this.old),r=this.openMarks;this.old.advance(e,i?1:-1,{
skip:(o,l,a)=>{if(o.isWidget())if(this.openWidget)this.builder.continueWidget(a-l);else{let h=a>0||l<o.length?Mt.of(o.widget,
this.view,a-l,o.flags&496,this.cache.maybeReuse(o)):this.cache.reuse(o);h.flags&256?(h.flags&=-2,this.builder.addBlockWidget(
h)):(this.builder.ensureLine(null),this.builder.addInlineWidget(h,s,r),r=s.length)}else if(o.isText())this.builder.ensureLine(
null),!l&&a==o.length&&!this.cache.reused.has(o)?this.builder.addText(o.text,s,r,this.cache.reuse(o)):(this.cache.add(o),
this.builder.addText(o.text.slice(l,a),s,r)),r=s.length;else if(o.isLine())o.flags&=-2,this.cache.reused.set(o,1),this.builder.
addLine(o);else if(o instanceof ni)this.cache.add(o);else if(o instanceof ue)this.builder.ensureLine(null),this.builder.
addMark(o,s,r),this.cache.reused.set(o,1),r=s.length;else return!1;this.openWidget=!1},enter:o=>{o.isLine()?this.builder.
addLineStart(o.attrs,this.cache.maybeReuse(o)):(this.cache.add(o),o instanceof ue&&s.unshift(o.mark)),this.openWidget=!1},
leave:o=>{o.isLine()?s.length&&(s.length=r=0):o instanceof ue&&(s.shift(),r=Math.min(r,s.length))},break:()=>{this.builder.
addBreak(),this.openWidget=!1}}),this.text.skip(e)}emit(e,t){let i=null,s=this.builder,r=-1,o=F.spans(this.decorations,e,
t,{point:(l,a,h,c,f,u)=>{if(h instanceof At){if(this.disallowBlockEffectsFor[u]){if(h.block)throw new RangeError("Block \
decorations may not be specified via plugins");if(a>this.view.state.doc.lineAt(l).to)throw new RangeError("Decorations t\
hat replace line breaks may not be specified via plugins")}if(r=c.length,f>c.length)s.continueWidget(a-l);else{let d=h.widget||
(h.block?lt.block:lt.inline),p=Gf(h),g=this.cache.findWidget(d,a-l,p)||Mt.of(d,this.view,a-l,p);h.block?(h.startSide>0&&
s.addLineStartIfNotCovered(i),s.addBlockWidget(g)):(s.ensureLine(i),s.addInlineWidget(g,c,f))}i=null}else i=Uf(i,h);a>l&&
this.text.skip(a-l)},span:(l,a,h,c)=>{for(let f=l;f<a;){let u=this.text.next(Math.min(512,a-f));u==null?(s.addLineStartIfNotCovered(
i),s.addBreak(),f++):(s.ensureLine(i),s.addText(u,h,f==l?c:h.length),f+=u.length),i=null}r=h.length}});r>-1&&(this.openWidget=
o>r),this.openWidget||s.addLineStartIfNotCovered(i),this.openMarks=o}forward(e,t,i=1){t-e<=10?this.old.advance(t-e,i,this.
reuseWalker):(this.old.advance(5,-1,this.reuseWalker),this.old.advance(t-e-10,-1),this.old.advance(5,i,this.reuseWalker))}getCompositionContext(e){
let t=[],i=null;for(let s=e.parentNode;;s=s.parentNode){let r=G.get(s);if(s==this.view.contentDOM)break;r instanceof ue?
t.push(r):r?.isLine()?i=r:r instanceof Ze||(s.nodeName=="DIV"&&!i?i=new ii(s,za):i||t.push(ue.of(new Bi({tagName:s.nodeName.
toLowerCase(),attributes:Mf(s)}),s)))}return i?{line:i,marks:t}:null}};function zl(n,e){let t=i=>{for(let s of i.children)
if((e?s.isText():s.length)||t(s))return!0;return!1};return t(n)}function Gf(n){let e=n.isReplace?(n.startSide<0?64:0)|(n.
endSide>0?128:0):n.startSide>0?32:16;return n.block&&(e|=256),e}var za={class:"cm-line"};function Uf(n,e){let t=e.spec.attributes,
i=e.spec.class;return!t&&!i||(n||(n={class:"cm-line"}),t&&Yr(t,n),i&&(n.class+=" "+i)),n}function _f(n){let e=[];for(let t=n.
parents.length;t>1;t--){let i=t==n.parents.length?n.tile:n.parents[t].tile;i instanceof ue&&e.push(i.mark)}return e}function Zs(n){
let e=G.get(n);return e&&e.setDOM(n.cloneNode()),n}var lt=class extends et{constructor(e){super(),this.tag=e}eq(e){return e.
tag==this.tag}toDOM(){return document.createElement(this.tag)}updateDOM(e){return e.nodeName.toLowerCase()==this.tag}get isHidden(){
return!0}};lt.inline=new lt("span");lt.block=new lt("div");var er=new class extends et{toDOM(){return document.createElement(
"br")}get isHidden(){return!0}get editable(){return!0}},Pn=class{constructor(e){this.view=e,this.decorations=[],this.blockWrappers=
[],this.dynamicDecorationMap=[!1],this.domChanged=null,this.hasComposition=null,this.editContextFormatting=L.none,this.lastCompositionAfterCursor=
!1,this.minWidth=0,this.minWidthFrom=0,this.minWidthTo=0,this.impreciseAnchor=null,this.impreciseHead=null,this.forceSelection=
!1,this.lastUpdate=Date.now(),this.updateDeco(),this.tile=new ti(e,e.contentDOM),this.updateInner([new Ee(0,0,0,e.state.
doc.length)],null)}update(e){var t;let i=e.changedRanges;this.minWidth>0&&i.length&&(i.every(({fromA:c,toA:f})=>f<this.minWidthFrom||
c>this.minWidthTo)?(this.minWidthFrom=e.changes.mapPos(this.minWidthFrom,1),this.minWidthTo=e.changes.mapPos(this.minWidthTo,
1)):this.minWidth=this.minWidthFrom=this.minWidthTo=0),this.updateEditContextFormatting(e);let s=-1;this.view.inputState.
composing>=0&&!this.view.observer.editContext&&(!((t=this.domChanged)===null||t===void 0)&&t.newSel?s=this.domChanged.newSel.
head:!iu(e.changes,this.hasComposition)&&!e.selectionSet&&(s=e.state.selection.main.head));let r=s>-1?Xf(this.view,e.changes,
s):null;if(this.domChanged=null,this.hasComposition){let{from:c,to:f}=this.hasComposition;i=new Ee(c,f,e.changes.mapPos(
c,-1),e.changes.mapPos(f,1)).addToSet(i.slice())}this.hasComposition=r?{from:r.range.fromB,to:r.range.toB}:null,(v.ie||v.
chrome)&&!r&&e&&e.state.doc.lines!=e.startState.doc.lines&&(this.forceSelection=!0);let o=this.decorations,l=this.blockWrappers;
this.updateDeco();let a=Zf(o,this.decorations,e.changes);a.length&&(i=Ee.extendWithRanges(i,a));let h=eu(l,this.blockWrappers,
e.changes);return h.length&&(i=Ee.extendWithRanges(i,h)),r&&!i.some(c=>c.fromA<=r.range.fromA&&c.toA>=r.range.toA)&&(i=r.
range.addToSet(i.slice())),this.tile.flags&2&&i.length==0?!1:(this.updateInner(i,r),e.transactions.length&&(this.lastUpdate=
Date.now()),!0)}updateInner(e,t){this.view.viewState.mustMeasureContent=!0;let{observer:i}=this.view;i.ignore(()=>{if(t||
e.length){let o=this.tile,l=new wr(this.view,o,this.blockWrappers,this.decorations,this.dynamicDecorationMap);t&&G.get(t.
text)&&l.cache.reused.set(G.get(t.text),2),this.tile=l.run(e,t),kr(o,l.cache.reused)}this.tile.dom.style.height=this.view.
viewState.contentHeight/this.view.scaleY+"px",this.tile.dom.style.flexBasis=this.minWidth?this.minWidth+"px":"";let r=v.
chrome||v.ios?{node:i.selectionRange.focusNode,written:!1}:void 0;this.tile.sync(r),r&&(r.written||i.selectionRange.focusNode!=
r.node||!this.tile.dom.contains(r.node))&&(this.forceSelection=!0),this.tile.dom.style.height=""});let s=[];if(this.view.
viewport.from||this.view.viewport.to<this.view.state.doc.length)for(let r of this.tile.children)r.isWidget()&&r.widget instanceof
Ai&&s.push(r.dom);i.updateGaps(s)}updateEditContextFormatting(e){this.editContextFormatting=this.editContextFormatting.map(
e.changes);for(let t of e.transactions)for(let i of t.effects)i.is(Ia)&&(this.editContextFormatting=i.value)}updateSelection(e=!1,t=!1){
(e||!this.view.observer.selectionRange.focusNode)&&this.view.observer.readSelectionRange();let{dom:i}=this.tile,s=this.view.
root.activeElement,r=s==i,o=!r&&!(this.view.state.facet(Qe)||i.tabIndex>-1)&&ki(i,this.view.observer.selectionRange)&&!(s&&
i.contains(s));if(!(r||t||o))return;let l=this.forceSelection;this.forceSelection=!1;let a=this.view.state.selection.main,
h,c;if(a.empty?c=h=this.inlineDOMNearPos(a.anchor,a.assoc||1):(c=this.inlineDOMNearPos(a.head,a.head==a.from?1:-1),h=this.
inlineDOMNearPos(a.anchor,a.anchor==a.from?1:-1)),v.gecko&&a.empty&&!this.hasComposition&&Yf(h)){let u=document.createTextNode(
"");this.view.observer.ignore(()=>h.node.insertBefore(u,h.node.childNodes[h.offset]||null)),h=c=new qe(u,0),l=!0}let f=this.
view.observer.selectionRange;(l||!f.focusNode||(!vi(h.node,h.offset,f.anchorNode,f.anchorOffset)||!vi(c.node,c.offset,f.
focusNode,f.focusOffset))&&!this.suppressWidgetCursorChange(f,a))&&(this.view.observer.ignore(()=>{v.android&&v.chrome&&
i.contains(f.focusNode)&&tu(f.focusNode,i)&&(i.blur(),i.focus({preventScroll:!0}));let u=Ei(this.view.root);if(u)if(a.empty){
if(v.gecko){let d=Jf(h.node,h.offset);if(d&&d!=3){let p=(d==1?wa:ka)(h.node,h.offset);p&&(h=new qe(p.node,p.offset))}}u.
collapse(h.node,h.offset),a.bidiLevel!=null&&u.caretBidiLevel!==void 0&&(u.caretBidiLevel=a.bidiLevel)}else if(u.extend){
u.collapse(h.node,h.offset);try{u.extend(c.node,c.offset)}catch{}}else{let d=document.createRange();a.anchor>a.head&&([h,
c]=[c,h]),d.setEnd(c.node,c.offset),d.setStart(h.node,h.offset),u.removeAllRanges(),u.addRange(d)}o&&this.view.root.activeElement==
i&&(i.blur(),s&&s.focus())}),this.view.observer.setSelectionRange(h,c)),this.impreciseAnchor=h.precise?null:new qe(f.anchorNode,
f.anchorOffset),this.impreciseHead=c.precise?null:new qe(f.focusNode,f.focusOffset)}suppressWidgetCursorChange(e,t){return this.
hasComposition&&t.empty&&vi(e.focusNode,e.focusOffset,e.anchorNode,e.anchorOffset)&&this.posFromDOM(e.focusNode,e.focusOffset)==
t.head}enforceCursorAssoc(){if(this.hasComposition)return;let{view:e}=this,t=e.state.selection.main,i=Ei(e.root),{anchorNode:s,
anchorOffset:r}=e.observer.selectionRange;if(!i||!t.empty||!t.assoc||!i.modify)return;let o=this.lineAt(t.head,t.assoc);
if(!o)return;let l=o.posAtStart;if(t.head==l||t.head==l+o.length)return;let a=this.coordsAt(t.head,-1),h=this.coordsAt(t.
head,1);if(!a||!h||a.bottom>h.top)return;let c=this.domAtPos(t.head+t.assoc,t.assoc);i.collapse(c.node,c.offset),i.modify(
"move",t.assoc<0?"forward":"backward","lineboundary"),e.observer.readSelectionRange();let f=e.observer.selectionRange;e.
docView.posFromDOM(f.anchorNode,f.anchorOffset)!=t.from&&i.collapse(s,r)}posFromDOM(e,t){let i=this.tile.nearest(e);if(!i)
return this.tile.dom.compareDocumentPosition(e)&2?0:this.view.state.doc.length;let s=i.posAtStart;if(i.isComposite()){let r;
if(e==i.dom)r=i.dom.childNodes[t];else{let o=tt(e)==0?0:t==0?-1:1;for(;;){let l=e.parentNode;if(l==i.dom)break;o==0&&l.firstChild!=
l.lastChild&&(e==l.firstChild?o=-1:o=1),e=l}o<0?r=e:r=e.nextSibling}if(r==i.dom.firstChild)return s;for(;r&&!G.get(r);)r=
r.nextSibling;if(!r)return s+i.length;for(let o=0,l=s;;o++){let a=i.children[o];if(a.dom==r)return l;l+=a.length+a.breakAfter}}else
return i.isText()?e==i.dom?s+t:s+(t?i.length:0):s}domAtPos(e,t){let{tile:i,offset:s}=this.tile.resolveBlock(e,t);return i.
isWidget()?i.domPosFor(s,t):i.domIn(s,t)}inlineDOMNearPos(e,t){let i,s=-1,r=!1,o,l=-1,a=!1;return this.tile.blockTiles((h,c)=>{
if(h.isWidget()){if(h.flags&32&&c>=e)return!0;h.flags&16&&(r=!0)}else{let f=c+h.length;if(c<=e&&(i=h,s=e-c,r=f<e),f>=e&&
!o&&(o=h,l=e-c,a=c>e),c>e&&o)return!0}}),!i&&!o?this.domAtPos(e,t):(r&&o?i=null:a&&i&&(o=null),i&&t<0||!o?i.domIn(s,t):o.
domIn(l,t))}coordsAt(e,t,i){let{tile:s,offset:r}=this.tile.resolveBlock(e,t);return s.isWidget()?s.widget instanceof Ai?
null:s.coordsInWidget(r,t,!0):s.coordsIn(r,t,i)}lineAt(e,t){let{tile:i}=this.tile.resolveBlock(e,t);return i.isLine()?i:
null}coordsForChar(e){let{tile:t,offset:i}=this.tile.resolveBlock(e,1);if(!t.isLine())return null;function s(r,o){if(r.isComposite())
for(let l of r.children){if(l.length>=o){let a=s(l,o);if(a)return a}if(o-=l.length,o<0)break}else if(r.isText()&&o<r.length){
let l=Q(r.text,o);if(l==o)return null;let a=Ri(r.dom,o,l).getClientRects();for(let h=0;h<a.length;h++){let c=a[h];if(h==
a.length-1||c.top<c.bottom&&c.left<c.right)return c}}return null}return s(t,i)}measureVisibleLineHeights(e){let t=[],{from:i,
to:s}=e,r=this.view.contentDOM.clientWidth,o=r>Math.max(this.view.scrollDOM.clientWidth,this.minWidth)+1,l=-1,a=this.view.
textDirection==K.LTR,h=0,c=(f,u,d)=>{for(let p=0;p<f.children.length&&!(u>s);p++){let g=f.children[p],m=u+g.length,y=g.dom.
getBoundingClientRect(),{height:A}=y;if(d&&!p&&(h+=y.top-d.top),g instanceof Ze)m>i&&c(g,u,y);else if(u>=i&&(h>0&&t.push(
-h),t.push(A+h),h=0,o)){let b=g.dom.lastChild,T=b?Cn(b):[];if(T.length){let S=T[T.length-1],D=a?S.right-y.left:y.right-S.
left;D>l&&(l=D,this.minWidth=r,this.minWidthFrom=u,this.minWidthTo=m)}}d&&p==f.children.length-1&&(h+=d.bottom-y.bottom),
u=m+g.breakAfter}};return c(this.tile,0,null),t}textDirectionAt(e){let{tile:t}=this.tile.resolveBlock(e,1);return getComputedStyle(
t.dom).direction=="rtl"?K.RTL:K.LTR}measureTextSize(){let e=this.tile.blockTiles(o=>{if(o.isLine()&&o.children.length&&o.
length<=20){let l=0,a;for(let h of o.children){if(!h.isText()||/[^ -~]/.test(h.text))return;let c=Cn(h.dom);if(c.length!=
1)return;l+=c[0].width,a=c[0].height}if(l)return{lineHeight:o.dom.getBoundingClientRect().height,charWidth:l/o.length,textHeight:a}}});
if(e)return e;let t=document.createElement("div"),i,s,r;return t.className="cm-line",t.style.width="99999px",t.style.position=
"absolute",t.textContent="abc def ghi jkl mno pqr stu",this.view.observer.ignore(()=>{this.tile.dom.appendChild(t);let o=Cn(
t.firstChild)[0];i=t.getBoundingClientRect().height,s=o&&o.width?o.width/27:7,r=o&&o.height?o.height:i,t.remove()}),{lineHeight:i,
charWidth:s,textHeight:r}}computeBlockGapDeco(){let e=[],t=this.view.viewState;for(let i=0,s=0;;s++){let r=s==t.viewports.
length?null:t.viewports[s],o=r?r.from-1:this.view.state.doc.length;if(o>i){let l=(t.lineBlockAt(o).bottom-t.lineBlockAt(
i).top)/this.view.scaleY;e.push(L.replace({widget:new Ai(l),block:!0,inclusive:!0,isBlockGap:!0}).range(i,o))}if(!r)break;
i=r.to+1}return L.set(e)}updateDeco(){let e=1,t=this.view.state.facet(Gn).map(r=>(this.dynamicDecorationMap[e++]=typeof r==
"function")?r(this.view):r),i=!1,s=this.view.state.facet(to).map((r,o)=>{let l=typeof r=="function";return l&&(i=!0),l?r(
this.view):r});for(s.length&&(this.dynamicDecorationMap[e++]=i,t.push(F.join(s))),this.decorations=[this.editContextFormatting,
...t,this.computeBlockGapDeco(),this.view.viewState.lineGapDeco];e<this.decorations.length;)this.dynamicDecorationMap[e++]=
!1;this.blockWrappers=this.view.state.facet(Fa).map(r=>typeof r=="function"?r(this.view):r)}scrollIntoView(e){if(e.isSnapshot){
let h=this.view.viewState.lineBlockAt(e.range.head);this.view.scrollDOM.scrollTop=h.top-e.yMargin,this.view.scrollDOM.scrollLeft=
e.xMargin;return}for(let h of this.view.state.facet(Pa))try{if(h(this.view,e.range,e))return!0}catch(c){ge(this.view.state,
c,"scroll handler")}let{range:t}=e,i=this.coordsAt(t.head,t.assoc||(t.head>t.anchor?-1:1)),s;if(!i)return;!t.empty&&(s=this.
coordsAt(t.anchor,t.anchor>t.head?-1:1))&&(i={left:Math.min(i.left,s.left),top:Math.min(i.top,s.top),right:Math.max(i.right,
s.right),bottom:Math.max(i.bottom,s.bottom)});let r=io(this.view),o={left:i.left-r.left,top:i.top-r.top,right:i.right+r.
right,bottom:i.bottom+r.bottom},{offsetWidth:l,offsetHeight:a}=this.view.scrollDOM;if(Of(this.view.scrollDOM,o,t.head<t.
anchor?-1:1,e.x,e.y,Math.max(Math.min(e.xMargin,l),-l),Math.max(Math.min(e.yMargin,a),-a),this.view.textDirection==K.LTR),
window.visualViewport&&window.innerHeight-window.visualViewport.height>1&&(i.top>window.visualViewport.offsetTop+window.
visualViewport.height||i.bottom<window.visualViewport.offsetTop)){let h=this.view.docView.lineAt(t.head,1);if(h){let c=ma(
h.dom);h.dom.scrollIntoView({block:"nearest"}),ya(c,!1)}}}lineHasWidget(e){let t=i=>i.isWidget()||i.children.some(t);return t(
this.tile.resolveBlock(e,1).tile)}destroy(){kr(this.tile)}};function kr(n,e){let t=e?.get(n);if(t!=1){t==null&&n.destroy();
for(let i of n.children)kr(i,e)}}function Yf(n){return te(n.node)&&n.node.firstChild&&(n.offset==0||n.node.childNodes[n.
offset-1].contentEditable=="false")&&(n.offset==n.node.childNodes.length||n.node.childNodes[n.offset].contentEditable=="\
false")}function qa(n,e){let t=n.observer.selectionRange;if(!t.focusNode)return null;let i=wa(t.focusNode,t.focusOffset),
s=ka(t.focusNode,t.focusOffset),r=i||s;if(s&&i&&s.node!=i.node){let l=G.get(s.node);if(!l||l.isText()&&l.text!=s.node.nodeValue)
r=s;else if(n.docView.lastCompositionAfterCursor){let a=G.get(i.node);!a||a.isText()&&a.text!=i.node.nodeValue||(r=s)}}if(n.
docView.lastCompositionAfterCursor=r!=i,!r)return null;let o=e-r.offset;return{from:o,to:o+r.node.nodeValue.length,node:r.
node}}function Xf(n,e,t){let i=qa(n,t);if(!i)return null;let{node:s,from:r,to:o}=i,l=s.nodeValue;if(/[\n\r]/.test(l)||n.
state.doc.sliceString(i.from,i.to)!=l)return null;let a=e.invertedDesc;return{range:new Ee(a.mapPos(r),a.mapPos(o),r,o),
text:s}}function Jf(n,e){return te(n)?(e&&n.childNodes[e-1].contentEditable=="false"?1:0)|(e<n.childNodes.length&&n.childNodes[e].
contentEditable=="false"?2:0):0}var Qf=class{constructor(){this.changes=[]}compareRange(e,t){Xt(e,t,this.changes)}comparePoint(e,t){
Xt(e,t,this.changes)}boundChange(e){Xt(e,e,this.changes)}};function Zf(n,e,t){let i=new Qf;return F.compare(n,e,t,i),i.changes}
var vr=class{constructor(){this.changes=[]}compareRange(e,t){Xt(e,t,this.changes)}comparePoint(){}boundChange(e){Xt(e,e,
this.changes)}};function eu(n,e,t){let i=new vr;return F.compare(n,e,t,i),i.changes}function tu(n,e){for(let t=n;t&&t!=e;t=
t.assignedSlot||t.parentNode)if(te(t)&&t.contentEditable=="false")return!0;return!1}function iu(n,e){let t=!1;return e&&
n.iterChangedRanges((i,s)=>{i<e.to&&s>e.from&&(t=!0)}),t}var Ai=class extends et{constructor(e){super(),this.height=e}toDOM(){
let e=document.createElement("div");return e.className="cm-gap",this.updateDOM(e),e}eq(e){return e.height==this.height}updateDOM(e){
return e.style.height=this.height+"px",!0}get editable(){return!0}get estimatedHeight(){return this.height}ignoreEvent(){
return!1}};function nu(n,e,t=1){let i=n.charCategorizer(e),s=n.doc.lineAt(e),r=e-s.from;if(s.length==0)return x.cursor(e);
r==0?t=1:r==s.length&&(t=-1);let o=r,l=r;t<0?o=Q(s.text,r,!1):l=Q(s.text,r);let a=i(s.text.slice(o,l));for(;o>0;){let h=Q(
s.text,o,!1);if(i(s.text.slice(h,o))!=a)break;o=h}for(;l<s.length;){let h=Q(s.text,l);if(i(s.text.slice(l,h))!=a)break;l=
h}return x.undirectionalRange(o+s.from,l+s.from)}function su(n,e,t,i,s){let r=Math.round((i-e.left)*n.defaultCharacterWidth);
if(n.lineWrapping&&t.height>n.defaultLineHeight*1.5){let l=n.viewState.heightOracle.textHeight,a=Math.floor((s-t.top-(n.
defaultLineHeight-l)*.5)/l);r+=a*n.viewState.heightOracle.lineLength}let o=n.state.sliceDoc(t.from,t.to);return t.from+Ml(
o,r,n.state.tabSize)}function ru(n,e,t){let i=n.lineBlockAt(e);if(Array.isArray(i.type)){let s;for(let r of i.type){if(r.
from>e)break;if(!(r.to<e)){if(r.from<e&&r.to>e)return r;(!s||r.type==de.Text&&(s.type!=r.type||(t<0?r.from<e:r.to>e)))&&
(s=r)}}return s||i}return i}function ou(n,e,t,i){let s=ru(n,e.head,e.assoc||-1),r=!i||s.type!=de.Text||!(n.lineWrapping||
s.widgetLineBreaks)?null:n.coordsAtPos(e.assoc<0&&e.head>s.from?e.head-1:e.head);if(r){let o=n.dom.getBoundingClientRect(),
l=n.textDirectionAt(s.from),a=n.posAndSideAtCoords({x:t==(l==K.LTR)?o.right-1:o.left+1,y:(r.top+r.bottom)/2});if(a)return x.
cursor(a.pos,a.assoc)}return x.cursor(t?s.to:s.from,t?1:-1)}function ql(n,e,t,i){let s=n.state.doc.lineAt(e.head),r=n.bidiSpans(
s),o=n.textDirectionAt(s.from);for(let l=e,a=null;;){let h=Wf(s,r,o,l,t),c=Ma;if(!h){if(s.number==(t?n.state.doc.lines:1))
return l;c=`
`,s=n.state.doc.line(s.number+(t?1:-1)),r=n.bidiSpans(s),h=t?x.cursor(s.from,-1):x.cursor(s.to,1)}if(a){if(!a(c))return l}else{
if(!i)return h;a=i(c)}l=h}}function lu(n,e,t){let i=n.state.charCategorizer(e),s=i(t);return r=>{let o=i(r);return s==j.
Space&&(s=o),s==o}}function au(n,e,t,i){let s=e.head,r=t?1:-1;if(s==(t?n.state.doc.length:0))return x.cursor(s,e.assoc);
let o=e.goalColumn,l,a=n.contentDOM.getBoundingClientRect(),h=n.coordsAtPos(s,e.assoc||((e.empty?t:e.head==e.from)?1:-1)),
c=n.documentTop;if(h)o==null&&(o=h.left-a.left),l=r<0?h.top:h.bottom;else{let p=n.viewState.lineBlockAt(s);o==null&&(o=Math.
min(a.right-a.left,n.defaultCharacterWidth*(s-p.from))),l=(r<0?p.top:p.bottom)+c}let f=a.left+o,u=n.viewState.heightOracle.
textHeight>>1,d=i??u;for(let p=0;;p+=u){let g=l+(d+p)*r,m=Sr(n,{x:f,y:g},!1,r);if(t?g>a.bottom:g<a.top)return x.cursor(m.
pos,m.assoc);let y=n.coordsAtPos(m.pos,m.assoc),A=y?(y.top+y.bottom)/2:0;if(!y||(t?A>l:A<l))return x.cursor(m.pos,m.assoc,
void 0,o)}}function Mi(n,e,t){for(;;){let i=0;for(let s of n)s.between(e-1,e+1,(r,o,l)=>{if(e>r&&e<o){let a=i||t||(e-r<o-
e?-1:1);e=a<0?r:o,i=a}});if(!i)return e}}function Ka(n,e){let t=null;for(let i=0;i<e.ranges.length;i++){let s=e.ranges[i],
r=null;if(s.empty){let o=Mi(n,s.from,0);o!=s.from&&(r=x.cursor(o,-1))}else{let o=Mi(n,s.from,-1),l=Mi(n,s.to,1);(o!=s.from||
l!=s.to)&&(s.undirectional?r=x.undirectionalRange(s.from,s.to):r=x.range(s.from==s.anchor?o:l,s.from==s.head?o:l))}r&&(t||
(t=e.ranges.slice()),t[i]=r)}return t?x.create(t,e.mainIndex):e}function tr(n,e,t){let i=Mi(n.state.facet(Pi).map(s=>s(n)),
t.from,e.head>t.from?-1:1);return i==t.from?t:x.cursor(i,i<t.from?1:-1)}var Ae=class{constructor(e,t){this.pos=e,this.assoc=
t}};function Sr(n,e,t,i){let s=n.contentDOM.getBoundingClientRect(),r=s.top+n.viewState.paddingTop,{x:o,y:l}=e,a=l-r,h;for(;;){
if(a<0)return new Ae(0,1);if(a>n.viewState.docHeight)return new Ae(n.state.doc.length,-1);if(h=n.elementAtHeight(a),i==null)
break;if(h.type==de.Text){if(i<0?h.to<n.viewport.from:h.from>n.viewport.to)break;let u=n.docView.coordsAt(i<0?h.from:h.to,
i>0?-1:1);if(u&&(i<0?u.top<=a+r:u.bottom>=a+r))break}let f=n.viewState.heightOracle.textHeight/2;a=i>0?h.bottom+f:h.top-
f}if(n.viewport.from>=h.to||n.viewport.to<=h.from){if(t)return null;if(h.type==de.Text){let f=su(n,s,h,o,l);return new Ae(
f,f==h.from?1:-1)}}if(h.type!=de.Text)return a<(h.top+h.bottom)/2?new Ae(h.from,1):new Ae(h.to,-1);let c=n.docView.lineAt(
h.from,2);return(!c||c.length!=h.length)&&(c=n.docView.lineAt(h.from,-2)),new Cr(n,o,l,n.textDirectionAt(h.from)).scanTile(
c,h.from)}var Cr=class{constructor(e,t,i,s){this.view=e,this.x=t,this.y=i,this.baseDir=s,this.line=null,this.spans=null}bidiSpansAt(e){
return(!this.line||this.line.from>e||this.line.to<e)&&(this.line=this.view.state.doc.lineAt(e),this.spans=this.view.bidiSpans(
this.line)),this}baseDirAt(e,t){let{line:i,spans:s}=this.bidiSpansAt(e);return s[Me.find(s,e-i.from,-1,t)].level==this.baseDir}dirAt(e,t){
let{line:i,spans:s}=this.bidiSpansAt(e);return s[Me.find(s,e-i.from,-1,t)].dir}bidiIn(e,t){let{spans:i,line:s}=this.bidiSpansAt(
e);return i.length>1||i.length&&(i[0].level!=this.baseDir||i[0].to+s.from<t)}scan(e,t,i=!1){let s=0,r=e.length-1,o=new Set,
l=this.bidiIn(e[0],e[r]),a,h,c=-1,f=1e9,u;e:for(;s<r;){let p=r-s,g=s+r>>1;t:if(o.has(g)){for(let A=1;A<p;A++){let b=g+A;
if(b>=r&&(b-=p),!o.has(b)){g=b;break t}}break e}o.add(g);let m=t(g),y=0;if(m)for(let A=0;A<m.length;A++){let b=m[A];if(!(b.
width==0&&m.length>1))if(b.bottom<this.y)(!a||a.bottom<b.bottom)&&(a=b),y=1;else if(b.top>this.y)(!h||h.top>b.top)&&(h=b),
y=-1;else{let T=b.left>this.x?this.x-b.left:b.right<this.x?this.x-b.right:0,S=Math.abs(T);S<f&&(c=g,f=S,u=b),T&&(y=T<0==
(this.baseDir==K.LTR)?-1:1)}}y==-1&&(!l||this.baseDirAt(e[g],1))?r=g:y==1&&(!l||this.baseDirAt(e[g+1],-1))&&(s=g+1)}if(!u){
if(!h&&!a)return{i:0,after:!1};let p=a&&(!h||this.y-a.bottom<h.top-this.y)?a:h;return this.y=(p.top+p.bottom)/2,this.scan(
e,t,!0)}if(f&&!i){let{top:p,bottom:g}=u;if(a&&a.bottom>(p+p+g)/3)return this.y=a.bottom-1,this.scan(e,t,!0);if(h&&h.top<
(p+g+g)/3)return this.y=h.top+1,this.scan(e,t,!0)}let d=(l?this.dirAt(e[c],1):this.baseDir)==K.LTR;return{i:c,after:this.
x>(u.left+u.right)/2==d}}scanText(e,t){let i=[];for(let r=0;r<e.length;r=Q(e.text,r))i.push(t+r);i.push(t+e.length);let s=this.
scan(i,r=>{let o=i[r]-t,l=i[r+1]-t;return Ri(e.dom,o,l).getClientRects()});return s.after?new Ae(i[s.i+1],-1):new Ae(i[s.
i],1)}scanTile(e,t){if(!e.length)return new Ae(t,1);if(e.children.length==1){let l=e.children[0];if(l.isText())return this.
scanText(l,t);if(l.isComposite())return this.scanTile(l,t)}let i=[t];for(let l=0,a=t;l<e.children.length;l++)i.push(a+=e.
children[l].length);let s=this.scan(i,l=>{let a=e.children[l];return a.flags&48?null:(te(a.dom)?a.dom:Ri(a.dom,0,a.length)).
getClientRects()}),r=e.children[s.i],o=i[s.i];return r.isText()?this.scanText(r,o):r.isComposite()?this.scanTile(r,o):s.
after?new Ae(i[s.i+1],-1):new Ae(o,1)}},jt="￿",Ar=class{constructor(e,t){this.points=e,this.view=t,this.text="",this.lineSeparator=
t.state.facet(V.lineSeparator)}append(e){this.text+=e}lineBreak(){this.text+=jt}readRange(e,t){if(!e)return this;let i=e.
parentNode;for(let s=e;;){this.findPointBefore(i,s);let r=this.text.length;this.readNode(s);let o=G.get(s),l=s.nextSibling;
if(l==t){o?.breakAfter&&!l&&i!=this.view.contentDOM&&this.lineBreak();break}let a=G.get(l);(o&&a?o.breakAfter:(o?o.breakAfter:
Bn(s))||Bn(l)&&(s.nodeName!="BR"||o?.isWidget())&&this.text.length>r)&&!cu(l,t)&&this.lineBreak(),s=l}return this.findPointBefore(
i,t),this}readTextNode(e){let t=e.nodeValue;for(let i of this.points)i.node==e&&(i.pos=this.text.length+Math.min(i.offset,
t.length));for(let i=0,s=this.lineSeparator?null:/\r\n?|\n/g;;){let r=-1,o=1,l;if(this.lineSeparator?(r=t.indexOf(this.lineSeparator,
i),o=this.lineSeparator.length):(l=s.exec(t))&&(r=l.index,o=l[0].length),this.append(t.slice(i,r<0?t.length:r)),r<0)break;
if(this.lineBreak(),o>1)for(let a of this.points)a.node==e&&a.pos>this.text.length&&(a.pos-=o-1);i=r+o}}readNode(e){let t=G.
get(e),i=t&&t.overrideDOMText;if(i!=null){this.findPointInside(e,i.length);for(let s=i.iter();!s.next().done;)s.lineBreak?
this.lineBreak():this.append(s.value)}else Qt(e)?this.readTextNode(e):e.nodeName=="BR"?e.nextSibling&&this.lineBreak():te(
e)&&this.readRange(e.firstChild,null)}findPointBefore(e,t){for(let i of this.points)i.node==e&&e.childNodes[i.offset]==t&&
(i.pos=this.text.length)}findPointInside(e,t){for(let i of this.points)(Qt(e)?i.node==e:e.contains(i.node))&&(i.pos=this.
text.length+(hu(e,i.node,i.offset)?t:0))}};function hu(n,e,t){for(;;){if(!e||t<tt(e))return!1;if(e==n)return!0;t=ot(e)+1,
e=e.parentNode}}function cu(n,e){let t;for(;!(n==e||!n);n=n.nextSibling){let i=G.get(n);if(!i?.isWidget())return!1;i&&(t||
(t=[])).push(i)}if(t)for(let i of t){let s=i.overrideDOMText;if(s?.length)return!1}return!0}var In=class{constructor(e,t){
this.node=e,this.offset=t,this.pos=-1}},Mr=class{constructor(e,t,i,s){this.typeOver=s,this.bounds=null,this.text="",this.
domChanged=t>-1;let{impreciseHead:r,impreciseAnchor:o}=e.docView,l=e.state.selection;if(e.state.readOnly&&t>-1)this.newSel=
null;else if(t>-1&&(this.bounds=$a(e.docView.tile,t,i,0))){let a=r||o?[]:uu(e),h=new Ar(a,e);h.readRange(this.bounds.startDOM,
this.bounds.endDOM),this.text=h.text,this.newSel=du(a,this.bounds.from)}else{let a=e.observer.selectionRange,h=r&&r.node==
a.focusNode&&r.offset==a.focusOffset||!hr(e.contentDOM,a.focusNode)?l.main.head:e.docView.posFromDOM(a.focusNode,a.focusOffset),
c=o&&o.node==a.anchorNode&&o.offset==a.anchorOffset||!hr(e.contentDOM,a.anchorNode)?l.main.anchor:e.docView.posFromDOM(a.
anchorNode,a.anchorOffset),f=e.viewport;if((v.ios||v.chrome)&&h!=c&&Math.min(h,c)<=l.main.from&&Math.max(h,c)>=l.main.to&&
(f.from>0||f.to<e.state.doc.length)){let u=Math.min(h,c),d=Math.max(h,c),p=f.from-u,g=f.to-d;(p==0||p==1||u==0)&&(g==0||
g==-1||d==e.state.doc.length)&&(h=0,c=e.state.doc.length)}if(e.inputState.composing>-1&&l.ranges.length>1)this.newSel=l.
replaceRange(x.range(c,h));else if(e.lineWrapping&&c==h&&!(l.main.empty&&l.main.head==h)&&e.inputState.lastTouchTime>Date.
now()-100){let u=e.coordsAtPos(h,-1),d=0;u&&(d=e.inputState.lastTouchY<=u.bottom?-1:1),this.newSel=x.create([x.cursor(h,
d)])}else this.newSel=x.single(c,h)}}};function $a(n,e,t,i){if(n.isComposite()){let s=-1,r=-1,o=-1,l=-1;for(let a=0,h=i,
c=i;a<n.children.length;a++){let f=n.children[a],u=h+f.length;if(h<e&&u>t)return $a(f,e,t,h);if(u>=e&&s==-1&&(s=a,r=h),h>
t&&f.dom.parentNode==n.dom){o=a,l=c;break}c=u,h=u+f.breakAfter}return{from:r,to:l<0?i+n.length:l,startDOM:(s?n.children[s-
1].dom.nextSibling:null)||n.dom.firstChild,endDOM:o<n.children.length&&o>=0?n.children[o].dom:null}}else return n.isText()?
{from:i,to:i+n.length,startDOM:n.dom,endDOM:n.dom.nextSibling}:null}function ja(n,e){let t,{newSel:i}=e,{state:s}=n,r=s.
selection.main,o=n.inputState.lastKeyTime>Date.now()-100?n.inputState.lastKeyCode:-1;if(e.bounds){let{from:l,to:a}=e.bounds,
h=r.from,c=null;(o===8||v.android&&e.text.length<a-l)&&(h=r.to,c="end");let f=s.doc.sliceString(l,a,jt),u,d;!r.empty&&r.
from>=l&&r.to<=a&&(e.typeOver||f!=e.text)&&f.slice(0,r.from-l)==e.text.slice(0,r.from-l)&&f.slice(r.to-l)==e.text.slice(
u=e.text.length-(f.length-(r.to-l)))?t={from:r.from,to:r.to,insert:P.of(e.text.slice(r.from-l,u).split(jt))}:(d=Ga(f,e.text,
h-l,c))&&(v.chrome&&o==13&&d.toB==d.from+2&&e.text.slice(d.from,d.toB)==jt+jt&&d.toB--,t={from:l+d.from,to:l+d.toA,insert:P.
of(e.text.slice(d.from,d.toB).split(jt))})}else i&&(!n.hasFocus&&s.facet(Qe)||Tr(i,r))&&(i=null);if(!t&&!i)return!1;if((v.
mac||v.android)&&t&&t.from==t.to&&t.from==r.head-1&&/^\. ?$/.test(t.insert.toString())&&n.contentDOM.getAttribute("autoc\
orrect")=="off"?(i&&t.insert.length==2&&(i=x.single(i.main.anchor-1,i.main.head-1)),t={from:t.from,to:t.to,insert:P.of([
t.insert.toString().replace("."," ")])}):s.doc.lineAt(r.from).to<r.to&&n.docView.lineHasWidget(r.to)&&n.inputState.insertingTextAt>
Date.now()-50?t={from:r.from,to:r.to,insert:s.toText(n.inputState.insertingText)}:v.chrome&&t&&t.from==t.to&&t.from==r.head&&
t.insert.toString()==`
 `&&n.lineWrapping&&(i&&(i=x.single(i.main.anchor-1,i.main.head-1)),t={from:r.from,to:r.to,insert:P.of([" "])}),t)return no(
n,t,i,o);if(i&&!Tr(i,r)){let l=!1,a="select";return n.inputState.lastSelectionTime>Date.now()-50&&(n.inputState.lastSelectionOrigin==
"select"&&(l=!0),a=n.inputState.lastSelectionOrigin,a=="select.pointer"&&(i=Ka(s.facet(Pi).map(h=>h(n)),i))),n.dispatch(
{selection:i,scrollIntoView:l,userEvent:a}),!0}else return!1}function no(n,e,t,i=-1){if(v.ios&&n.inputState.flushIOSKey(
e))return!0;let s=n.state.selection.main;if(v.android&&(e.to==s.to&&(e.from==s.from||e.from==s.from-1&&n.state.sliceDoc(
e.from,s.from)==" ")&&e.insert.length==1&&e.insert.lines==2&&Jt(n.contentDOM,"Enter",13)||(e.from==s.from-1&&e.to==s.to&&
e.insert.length==0||i==8&&e.insert.length<e.to-e.from&&e.to>s.head)&&Jt(n.contentDOM,"Backspace",8)||e.from==s.from&&e.to==
s.to+1&&e.insert.length==0&&Jt(n.contentDOM,"Delete",46)))return!0;let r=e.insert.toString();n.inputState.composing>=0&&
n.inputState.composing++;let o,l=()=>o||(o=fu(n,e,t));return n.state.facet(La).some(a=>a(n,e.from,e.to,r,l))||n.dispatch(
l()),!0}function fu(n,e,t){let i,s=n.state,r=s.selection.main,o=-1;if(e.from==e.to&&e.from<r.from||e.from>r.to){let a=e.
from<r.from?-1:1,h=a<0?r.from:r.to,c=Mi(s.facet(Pi).map(f=>f(n)),h,a);e.from==c&&(o=c)}if(o>-1)i={changes:e,selection:x.
cursor(e.from+e.insert.length,-1)};else if(e.from>=r.from&&e.to<=r.to&&e.to-e.from>=(r.to-r.from)/3&&(!t||t.main.empty&&
t.main.from==e.from+e.insert.length)&&n.inputState.composing<0){let a=r.from<e.from?s.sliceDoc(r.from,e.from):"",h=r.to>
e.to?s.sliceDoc(e.to,r.to):"";i=s.replaceSelection(n.state.toText(a+e.insert.sliceString(0,void 0,n.state.lineBreak)+h))}else{
let a=s.changes(e),h=t&&t.main.to<=a.newLength?t.main:void 0;if(s.selection.ranges.length>1&&(n.inputState.composing>=0||
n.inputState.compositionPendingChange)&&e.to<=r.to+10&&e.to>=r.to-10){let c=n.state.sliceDoc(e.from,e.to),f,u=t&&qa(n,t.
main.head);if(u){let p=e.insert.length-(e.to-e.from);f={from:u.from,to:u.to-p}}else f=n.state.doc.lineAt(r.head);let d=r.
to-e.to;i=s.changeByRange(p=>{if(p.from==r.from&&p.to==r.to)return{changes:a,range:h||p.map(a)};let g=p.to-d,m=g-c.length;
if(n.state.sliceDoc(m,g)!=c||g>=f.from&&m<=f.to)return{range:p};let y=s.changes({from:m,to:g,insert:e.insert}),A=p.to-r.
to;return{changes:y,range:h?x.range(Math.max(0,h.anchor+A),Math.max(0,h.head+A)):p.map(y)}})}else i={changes:a,selection:h&&
s.selection.replaceRange(h)}}let l="input.type";return(n.composing||n.inputState.compositionPendingChange&&n.inputState.
compositionEndedAt>Date.now()-50)&&(n.inputState.compositionPendingChange=!1,l+=".compose",n.inputState.compositionFirstChange&&
(l+=".start",n.inputState.compositionFirstChange=!1)),s.update(i,{userEvent:l,scrollIntoView:!0})}function Ga(n,e,t,i){let s=Math.
min(n.length,e.length),r=0;for(;r<s&&n.charCodeAt(r)==e.charCodeAt(r);)r++;if(r==s&&n.length==e.length)return null;let o=n.
length,l=e.length;for(;o>0&&l>0&&n.charCodeAt(o-1)==e.charCodeAt(l-1);)o--,l--;if(i=="end"){let a=Math.max(0,r-Math.min(
o,l));t-=o+a-r}if(o<r&&n.length<e.length){let a=t<=r&&t>=o?r-t:0;r-=a,l=r+(l-o),o=r}else if(l<r){let a=t<=r&&t>=l?r-t:0;
r-=a,o=r+(o-l),l=r}return{from:r,toA:o,toB:l}}function uu(n){let e=[];if(n.root.activeElement!=n.contentDOM)return e;let{
anchorNode:t,anchorOffset:i,focusNode:s,focusOffset:r}=n.observer.selectionRange;return t&&(e.push(new In(t,i)),(s!=t||r!=
i)&&e.push(new In(s,r))),e}function du(n,e){if(n.length==0)return null;let t=n[0].pos,i=n.length==2?n[1].pos:t;return t<
0||i<0?null:t==i?x.create([x.cursor(i+e,-1)]):x.single(t+e,i+e)}function Tr(n,e){return e.head==n.main.head&&e.anchor==n.
main.anchor}var Dr=class{setSelectionOrigin(e){this.lastSelectionOrigin=e,this.lastSelectionTime=Date.now()}constructor(e){
this.view=e,this.lastKeyCode=0,this.lastKeyTime=0,this.touchActive=!1,this.lastTouchTime=0,this.lastTouchX=0,this.lastTouchY=
0,this.lastFocusTime=0,this.lastScrollTop=0,this.lastScrollLeft=0,this.lastWheelEvent=0,this.pendingIOSKey=void 0,this.lastIOSMomentumScroll=
0,this.tabFocusMode=-1,this.lastSelectionOrigin=null,this.lastSelectionTime=0,this.lastContextMenu=0,this.scrollHandlers=
[],this.handlers=Object.create(null),this.composing=-1,this.compositionFirstChange=null,this.compositionEndedAt=0,this.compositionPendingKey=
!1,this.compositionPendingChange=!1,this.insertingText="",this.insertingTextAt=0,this.mouseSelection=null,this.draggedContent=
null,this.handleEvent=this.handleEvent.bind(this),this.notifiedFocused=e.hasFocus,v.safari&&e.contentDOM.addEventListener(
"input",()=>null),v.gecko&&Du(e.contentDOM.ownerDocument)}handleEvent(e){!ku(this.view,e)||this.ignoreDuringComposition(
e)||e.type=="keydown"&&this.keydown(e)||(this.view.updateState!=0?Promise.resolve().then(()=>this.runHandlers(e.type,e)):
this.runHandlers(e.type,e))}runHandlers(e,t){let i=this.handlers[e];if(i){for(let s of i.observers)s(this.view,t);for(let s of i.
handlers){if(t.defaultPrevented)break;if(s(this.view,t)){t.preventDefault();break}}}}ensureHandlers(e){let t=gu(e),i=this.
handlers,s=this.view.contentDOM;for(let r in t)if(r!="scroll"){let o=!t[r].handlers.length,l=i[r];l&&o!=!l.handlers.length&&
(s.removeEventListener(r,this.handleEvent),l=null),l||s.addEventListener(r,this.handleEvent,{passive:o})}for(let r in i)
r!="scroll"&&!t[r]&&s.removeEventListener(r,this.handleEvent);this.handlers=t}keydown(e){if(this.lastKeyCode=e.keyCode,this.
lastKeyTime=Date.now(),e.keyCode==9&&this.tabFocusMode>-1&&(!this.tabFocusMode||Date.now()<=this.tabFocusMode))return!0;
if(this.tabFocusMode>0&&e.keyCode!=27&&_a.indexOf(e.keyCode)<0&&(this.tabFocusMode=-1),v.android&&v.chrome&&!e.synthetic&&
(e.keyCode==13||e.keyCode==8))return this.view.observer.delayAndroidKey(e.key,e.keyCode),!0;if(v.ios&&!e.synthetic&&!e.altKey&&
!e.metaKey&&(Ua.some(t=>t.keyCode==e.keyCode)&&!e.ctrlKey||mu.indexOf(e.key)>-1&&e.ctrlKey)){let t={ctrlKey:e.ctrlKey,altKey:e.
altKey,metaKey:e.metaKey,shiftKey:e.shiftKey};t.shiftKey&&v.ios&&!/^(off|none)$/.test(this.view.contentDOM.autocapitalize)&&
pu(this.view.win)&&(t.shiftKey=!1);let i=this.pendingIOSKey={key:e.key,keyCode:e.keyCode,mods:t};return setTimeout(()=>{
this.pendingIOSKey==i&&this.flushIOSKey()},50),!0}return e.keyCode!=229&&this.view.observer.forceFlush(),!1}flushIOSKey(e){
let t=this.pendingIOSKey;return!t||this.view.observer.pendingRecords().length||t.key=="Enter"&&e&&e.from<e.to&&/^\S+$/.test(
e.insert.toString())?!1:(this.pendingIOSKey=void 0,Jt(this.view.contentDOM,t.key,t.keyCode,t.mods))}ignoreDuringComposition(e){
return!/^key/.test(e.type)||e.synthetic?!1:this.composing>0?!0:v.safari&&!v.ios&&this.compositionPendingKey&&Date.now()-
this.compositionEndedAt<100?(this.compositionPendingKey=!1,!0):!1}startMouseSelection(e){this.mouseSelection&&this.mouseSelection.
destroy(),this.mouseSelection=e}update(e){this.view.observer.update(e),this.mouseSelection&&this.mouseSelection.update(e),
this.draggedContent&&e.docChanged&&(this.draggedContent=this.draggedContent.map(e.changes)),e.transactions.length&&(this.
lastKeyCode=this.lastSelectionTime=0)}destroy(){this.mouseSelection&&this.mouseSelection.destroy()}};function pu(n){return n.
visualViewport?n.visualViewport.height*n.visualViewport.scale/n.document.documentElement.clientHeight<.85:!1}function Kl(n,e){
return(t,i)=>{try{return e.call(n,i,t)}catch(s){ge(t.state,s)}}}function gu(n){let e=Object.create(null);function t(i){return e[i]||
(e[i]={observers:[],handlers:[]})}for(let i of n){let s=i.spec,r=s&&s.plugin.domEventHandlers,o=s&&s.plugin.domEventObservers;
if(r)for(let l in r){let a=r[l];a&&t(l).handlers.push(Kl(i.value,a))}if(o)for(let l in o){let a=o[l];a&&t(l).observers.push(
Kl(i.value,a))}}for(let i in Re)t(i).handlers.push(Re[i]);for(let i in ce)t(i).observers.push(ce[i]);return e}var Ua=[{key:"\
Backspace",keyCode:8,inputType:"deleteContentBackward"},{key:"Enter",keyCode:13,inputType:"insertParagraph"},{key:"Enter",
keyCode:13,inputType:"insertLineBreak"},{key:"Delete",keyCode:46,inputType:"deleteContentForward"}],mu="dthko",_a=[16,17,
18,20,91,92,224,225],mn=6;function yn(n){return Math.max(0,n)*.7+8}function yu(n,e){return Math.max(Math.abs(n.clientX-e.
clientX),Math.abs(n.clientY-e.clientY))}var Or=class{constructor(e,t,i,s){this.view=e,this.startEvent=t,this.style=i,this.
mustSelect=s,this.scrollSpeed={x:0,y:0},this.scrolling=-1,this.lastEvent=t,this.scrollParents=ga(e.contentDOM),this.atoms=
e.state.facet(Pi).map(o=>o(e));let r=e.contentDOM.ownerDocument;r.addEventListener("mousemove",this.move=this.move.bind(
this)),r.addEventListener("mouseup",this.up=this.up.bind(this)),this.extend=t.shiftKey,this.multiple=e.state.facet(V.allowMultipleSelections)&&
bu(e,t),this.dragging=wu(e,t)&&Ja(t)==1?null:!1}start(e){this.dragging===!1&&this.select(e)}move(e){if(e.buttons==0)return this.
destroy();if(this.dragging||this.dragging==null&&yu(this.startEvent,e)<10)return;this.select(this.lastEvent=e);let t=0,i=0,
s=0,r=0,o=this.view.win.innerWidth,l=this.view.win.innerHeight;this.scrollParents.x&&({left:s,right:o}=this.scrollParents.
x.getBoundingClientRect()),this.scrollParents.y&&({top:r,bottom:l}=this.scrollParents.y.getBoundingClientRect());let a=io(
this.view);e.clientX-a.left<=s+mn?t=-yn(s-e.clientX):e.clientX+a.right>=o-mn&&(t=yn(e.clientX-o)),e.clientY-a.top<=r+mn?
i=-yn(r-e.clientY):e.clientY+a.bottom>=l-mn&&(i=yn(e.clientY-l)),this.setScrollSpeed(t,i)}up(e){this.dragging==null&&this.
select(this.lastEvent),this.dragging||e.preventDefault(),this.destroy()}destroy(){this.setScrollSpeed(0,0);let e=this.view.
contentDOM.ownerDocument;e.removeEventListener("mousemove",this.move),e.removeEventListener("mouseup",this.up),this.view.
inputState.mouseSelection=this.view.inputState.draggedContent=null}setScrollSpeed(e,t){this.scrollSpeed={x:e,y:t},e||t?this.
scrolling<0&&(this.scrolling=setInterval(()=>this.scroll(),50)):this.scrolling>-1&&(clearInterval(this.scrolling),this.scrolling=
-1)}scroll(){let{x:e,y:t}=this.scrollSpeed;e&&this.scrollParents.x&&(this.scrollParents.x.scrollLeft+=e,e=0),t&&this.scrollParents.
y&&(this.scrollParents.y.scrollTop+=t,t=0),(e||t)&&this.view.win.scrollBy(e,t),this.dragging===!1&&this.select(this.lastEvent)}select(e){
let{view:t}=this,i=Ka(this.atoms,this.style.get(e,this.extend,this.multiple));(this.mustSelect||!i.eq(t.state.selection,
this.dragging===!1))&&this.view.dispatch({selection:i,userEvent:"select.pointer"}),this.mustSelect=!1}update(e){e.transactions.
some(t=>t.isUserEvent("input.type"))?this.destroy():this.style.update(e)&&setTimeout(()=>this.select(this.lastEvent),20)}};
function bu(n,e){let t=n.state.facet(Ta);return t.length?t[0](e):v.mac?e.metaKey:e.ctrlKey}function xu(n,e){let t=n.state.
facet(Da);return t.length?t[0](e):v.mac?!e.altKey:!e.ctrlKey}function wu(n,e){let{main:t}=n.state.selection;if(t.empty)return!1;
let i=Ei(n.root);if(!i||i.rangeCount==0)return!0;let s=i.getRangeAt(0).getClientRects();for(let r=0;r<s.length;r++){let o=s[r];
if(o.left<=e.clientX&&o.right>=e.clientX&&o.top<=e.clientY&&o.bottom>=e.clientY)return!0}return!1}function ku(n,e){if(!e.
bubbles)return!0;if(e.defaultPrevented)return!1;for(let t=e.target,i;t!=n.contentDOM;t=t.parentNode)if(!t||t.nodeType==11||
(i=G.get(t))&&i.isWidget()&&!i.isHidden&&i.widget.ignoreEvent(e))return!1;return!0}var Re=Object.create(null),ce=Object.
create(null),Ya=v.ie&&v.ie_version<15||v.ios&&v.webkit_version<604;function vu(n){let e=n.dom.parentNode;if(!e)return;let t=e.
appendChild(document.createElement("textarea"));t.style.cssText="position: fixed; left: -10000px; top: 10px",t.focus(),setTimeout(
()=>{n.focus(),t.remove(),Xa(n,t.value)},50)}function Un(n,e,t){for(let i of n.facet(e))t=i(t,n);return t}function Xa(n,e){
e=Un(n.state,Qr,e);let{state:t}=n,i,s=1,r=t.toText(e),o=r.lines==t.selection.ranges.length;if(Br!=null&&t.selection.ranges.
every(a=>a.empty)&&Br==r.toString()){let a=-1;i=t.changeByRange(h=>{let c=t.doc.lineAt(h.from);if(c.from==a)return{range:h};
a=c.from;let f=t.toText((o?r.line(s++).text:e)+t.lineBreak);return{changes:{from:c.from,insert:f},range:x.cursor(h.from+
f.length,-1)}})}else o?i=t.changeByRange(a=>{let h=r.line(s++);return{changes:{from:a.from,to:a.to,insert:h.text},range:x.
cursor(a.from+h.length,-1)}}):i=t.replaceSelection(r);n.dispatch(i,{userEvent:"input.paste",scrollIntoView:!0})}ce.scroll=
n=>{let e=n.inputState;e.lastScrollTop=n.scrollDOM.scrollTop,e.lastScrollLeft=n.scrollDOM.scrollLeft,v.ios&&!e.touchActive&&
(e.lastIOSMomentumScroll=Date.now())};ce.wheel=ce.mousewheel=n=>{n.inputState.lastWheelEvent=Date.now()};Re.keydown=(n,e)=>(n.
inputState.setSelectionOrigin("select"),e.keyCode==27&&n.inputState.tabFocusMode!=0&&(n.inputState.tabFocusMode=Date.now()+
2e3),!1);ce.touchstart=(n,e)=>{let t=n.inputState,i=e.targetTouches[0];t.touchActive=!0,t.lastTouchTime=Date.now(),i&&(t.
lastTouchX=i.clientX,t.lastTouchY=i.clientY),t.setSelectionOrigin("select.pointer")};ce.touchmove=n=>{n.inputState.setSelectionOrigin(
"select.pointer")};ce.touchend=(n,e)=>{n.inputState.touchActive=!1};Re.mousedown=(n,e)=>{if(n.observer.flush(),n.inputState.
lastTouchTime>Date.now()-2e3)return!1;let t=null;for(let i of n.state.facet(Oa))if(t=i(n,e),t)break;if(!t&&e.button==0&&
(t=Cu(n,e)),t){let i=!n.hasFocus;n.inputState.startMouseSelection(new Or(n,e,t,i)),i&&n.observer.ignore(()=>{ba(n.contentDOM);
let r=n.root.activeElement;r&&!r.contains(n.contentDOM)&&r.blur()});let s=n.inputState.mouseSelection;if(s)return s.start(
e),s.dragging===!1}else n.inputState.setSelectionOrigin("select.pointer");return!1};function $l(n,e,t,i){if(i==1)return x.
cursor(e,t);if(i==2)return nu(n.state,e,t);{let s=n.docView.lineAt(e,t),r=n.state.doc.lineAt(s?s.posAtEnd:e),o=s?s.posAtStart:
r.from,l=s?s.posAtEnd:r.to;return l<n.state.doc.length&&l==r.to&&l++,x.undirectionalRange(o,l)}}var Su=v.ie&&v.ie_version<=
11,jl=null,Gl=0,Ul=0;function Ja(n){if(!Su)return n.detail;let e=jl,t=Ul;return jl=n,Ul=Date.now(),Gl=!e||t>Date.now()-400&&
Math.abs(e.clientX-n.clientX)<2&&Math.abs(e.clientY-n.clientY)<2?(Gl+1)%3:1}function Cu(n,e){let t=n.posAndSideAtCoords(
{x:e.clientX,y:e.clientY},!1),i=Ja(e),s=n.state.selection;return{update(r){r.docChanged&&(t.pos=r.changes.mapPos(t.pos),
s=s.map(r.changes))},get(r,o,l){let a=n.posAndSideAtCoords({x:r.clientX,y:r.clientY},!1),h,c=$l(n,a.pos,a.assoc,i);if(t.
pos!=a.pos&&!o){let f=$l(n,t.pos,t.assoc,i),u=Math.min(f.from,c.from),d=Math.max(f.to,c.to);c=u<c.from?x.range(u,d,c.assoc):
x.range(d,u,c.assoc)}return o?s.replaceRange(s.main.extend(c.from,c.to,c.assoc)):l&&i==1&&s.ranges.length>1&&(h=Au(s,a.pos))?
h:l?s.addRange(c):x.create([c])}}}function Au(n,e){for(let t=0;t<n.ranges.length;t++){let{from:i,to:s}=n.ranges[t];if(i<=
e&&s>=e)return x.create(n.ranges.slice(0,t).concat(n.ranges.slice(t+1)),n.mainIndex==t?0:n.mainIndex-(n.mainIndex>t?1:0))}
return null}Re.dragstart=(n,e)=>{let{selection:{main:t}}=n.state;if(e.target.draggable){let s=n.docView.tile.nearest(e.target);
if(s&&s.isWidget()){let r=s.posAtStart,o=r+s.length;(r>=t.to||o<=t.from)&&(t=x.undirectionalRange(r,o))}}let{inputState:i}=n;
return i.mouseSelection&&(i.mouseSelection.dragging=!0),i.draggedContent=t,e.dataTransfer&&(e.dataTransfer.setData("Text",
Un(n.state,Zr,n.state.sliceDoc(t.from,t.to))),e.dataTransfer.effectAllowed="copyMove"),!1};Re.dragend=n=>(n.inputState.draggedContent=
null,!1);function _l(n,e,t,i){if(t=Un(n.state,Qr,t),!t)return;let s=n.posAtCoords({x:e.clientX,y:e.clientY},!1),{draggedContent:r}=n.
inputState,o=i&&r&&xu(n,e)?{from:r.from,to:r.to}:null,l={from:s,insert:t},a=n.state.changes(o?[o,l]:l);n.focus(),n.dispatch(
{changes:a,selection:{anchor:a.mapPos(s,-1),head:a.mapPos(s,1)},userEvent:o?"move.drop":"input.drop"}),n.inputState.draggedContent=
null}Re.drop=(n,e)=>{if(!e.dataTransfer)return!1;if(n.state.readOnly)return!0;let t=e.dataTransfer.files;if(t&&t.length){
let i=Array(t.length),s=0,r=()=>{++s==t.length&&_l(n,e,i.filter(o=>o!=null).join(n.state.lineBreak),!1)};for(let o=0;o<t.
length;o++){let l=new FileReader;l.onerror=r,l.onload=()=>{/[\x00-\x08\x0e-\x1f]{2}/.test(l.result)||(i[o]=l.result),r()},
l.readAsText(t[o])}return!0}else{let i=e.dataTransfer.getData("Text");if(i)return _l(n,e,i,!0),!0}return!1};Re.paste=(n,e)=>{
if(n.state.readOnly)return!0;n.observer.flush();let t=Ya?null:e.clipboardData;return t?(Xa(n,t.getData("text/plain")||t.
getData("text/uri-list")),!0):(vu(n),!1)};function Mu(n,e){let t=n.dom.parentNode;if(!t)return;let i=t.appendChild(document.
createElement("textarea"));i.style.cssText="position: fixed; left: -10000px; top: 10px",i.value=e,i.focus(),i.selectionEnd=
e.length,i.selectionStart=0,setTimeout(()=>{i.remove(),n.focus()},50)}function Tu(n){let e=[],t=[],i=!1;for(let s of n.selection.
ranges)s.empty||(e.push(n.sliceDoc(s.from,s.to)),t.push(s));if(!e.length){let s=-1;for(let{from:r}of n.selection.ranges){
let o=n.doc.lineAt(r);o.number>s&&(e.push(o.text),t.push({from:o.from,to:Math.min(n.doc.length,o.to+1)})),s=o.number}i=!0}
return{text:Un(n,Zr,e.join(n.lineBreak)),ranges:t,linewise:i}}var Br=null;Re.copy=Re.cut=(n,e)=>{if(!ki(n.contentDOM,n.observer.
selectionRange))return!1;let{text:t,ranges:i,linewise:s}=Tu(n.state);if(!t&&!s)return!1;Br=s?t:null,e.type=="cut"&&!n.state.
readOnly&&n.dispatch({changes:i,scrollIntoView:!0,userEvent:"delete.cut"});let r=Ya?null:e.clipboardData;return r?(r.clearData(),
r.setData("text/plain",t),!0):(Mu(n,t),!1)};var Qa=ve.define();function Za(n,e){let t=[];for(let i of n.facet(Ea)){let s=i(
n,e);s&&t.push(s)}return t.length?n.update({effects:t,annotations:Qa.of(!0)}):null}function eh(n){setTimeout(()=>{let e=n.
hasFocus;if(e!=n.inputState.notifiedFocused){let t=Za(n.state,e);t?n.dispatch(t):n.update([])}},10)}ce.focus=n=>{n.inputState.
lastFocusTime=Date.now(),!n.scrollDOM.scrollTop&&(n.inputState.lastScrollTop||n.inputState.lastScrollLeft)&&(n.scrollDOM.
scrollTop=n.inputState.lastScrollTop,n.scrollDOM.scrollLeft=n.inputState.lastScrollLeft),eh(n)};ce.blur=n=>{n.observer.clearSelectionRange(),
eh(n)};ce.compositionstart=ce.compositionupdate=(n,e)=>{if(!n.observer.editContext&&(n.inputState.compositionFirstChange==
null&&(n.inputState.compositionFirstChange=!0),n.inputState.composing<0)){let{main:t}=n.state.selection;!t.empty&&n.lineBlockAt(
t.from).from!=n.lineBlockAt(t.to).from&&!n.state.readOnly&&n.dispatch({changes:n.state.selection.ranges.filter(i=>!i.empty).
map(i=>({from:i.from,to:i.to})),userEvent:"input"}),n.inputState.composing=0}};ce.compositionend=n=>{n.observer.editContext||
(n.inputState.composing=-1,n.inputState.compositionEndedAt=Date.now(),n.inputState.compositionPendingKey=!0,n.inputState.
compositionPendingChange=n.observer.pendingRecords().length>0,n.inputState.compositionFirstChange=null,v.chrome&&v.android?
n.observer.flushSoon():n.inputState.compositionPendingChange?Promise.resolve().then(()=>n.observer.flush()):setTimeout(()=>{
n.inputState.composing<0&&n.docView.hasComposition&&n.update([])},50))};ce.contextmenu=n=>{n.inputState.lastContextMenu=
Date.now()};Re.beforeinput=(n,e)=>{var t,i;if((e.inputType=="insertText"||e.inputType=="insertCompositionText")&&(n.inputState.
insertingText=e.data,n.inputState.insertingTextAt=Date.now()),e.inputType=="insertReplacementText"&&n.observer.editContext){
let r=(t=e.dataTransfer)===null||t===void 0?void 0:t.getData("text/plain"),o=e.getTargetRanges();if(r&&o.length){let l=o[0],
a=n.posAtDOM(l.startContainer,l.startOffset),h=n.posAtDOM(l.endContainer,l.endOffset);return no(n,{from:a,to:h,insert:n.
state.toText(r)},null),!0}}let s;if(v.chrome&&v.android&&(s=Ua.find(r=>r.inputType==e.inputType))&&(n.observer.delayAndroidKey(
s.key,s.keyCode),s.key=="Backspace"||s.key=="Delete")){let r=((i=window.visualViewport)===null||i===void 0?void 0:i.height)||
0;setTimeout(()=>{var o;(((o=window.visualViewport)===null||o===void 0?void 0:o.height)||0)>r+10&&n.hasFocus&&(n.contentDOM.
blur(),n.focus())},100)}return v.ios&&e.inputType=="deleteContentForward"&&n.observer.flushSoon(),v.safari&&e.inputType==
"insertText"&&n.inputState.composing>=0&&setTimeout(()=>ce.compositionend(n,e),20),!1};var Yl=new Set;function Du(n){Yl.
has(n)||(Yl.add(n),n.addEventListener("copy",()=>{}),n.addEventListener("cut",()=>{}))}var Xl=["pre-wrap","normal","pre-\
line","break-spaces"],si=!1;function Jl(){si=!1}var Lr=class{constructor(e){this.lineWrapping=e,this.doc=P.empty,this.heightSamples=
{},this.lineHeight=14,this.charWidth=7,this.textHeight=14,this.lineLength=30}heightForGap(e,t){let i=this.doc.lineAt(t).
number-this.doc.lineAt(e).number+1;return this.lineWrapping&&(i+=Math.max(0,Math.ceil((t-e-i*this.lineLength*.5)/this.lineLength))),
this.lineHeight*i}heightForLine(e){return this.lineWrapping?(1+Math.max(0,Math.ceil((e-this.lineLength)/Math.max(1,this.
lineLength-5))))*this.lineHeight:this.lineHeight}setDoc(e){return this.doc=e,this}mustRefreshForWrapping(e){return Xl.indexOf(
e)>-1!=this.lineWrapping}mustRefreshForHeights(e){let t=!1;for(let i=0;i<e.length;i++){let s=e[i];s<0?i++:this.heightSamples[Math.
floor(s*10)]||(t=!0,this.heightSamples[Math.floor(s*10)]=!0)}return t}refresh(e,t,i,s,r,o){let l=Xl.indexOf(e)>-1,a=Math.
abs(t-this.lineHeight)>.3||this.lineWrapping!=l;if(this.lineWrapping=l,this.lineHeight=t,this.charWidth=i,this.textHeight=
s,this.lineLength=r,a){this.heightSamples={};for(let h=0;h<o.length;h++){let c=o[h];c<0?h++:this.heightSamples[Math.floor(
c*10)]=!0}}return a}},Er=class{constructor(e,t){this.from=e,this.heights=t,this.index=0}get more(){return this.index<this.
heights.length}},Le=class n{constructor(e,t,i,s,r){this.from=e,this.length=t,this.top=i,this.height=s,this._content=r}get type(){
return typeof this._content=="number"?de.Text:Array.isArray(this._content)?this._content:this._content.type}get to(){return this.
from+this.length}get bottom(){return this.top+this.height}get widget(){return this._content instanceof At?this._content.
widget:null}get widgetLineBreaks(){return typeof this._content=="number"?this._content:0}join(e){let t=(Array.isArray(this.
_content)?this._content:[this]).concat(Array.isArray(e._content)?e._content:[e]);return new n(this.from,this.length+e.length,
this.top,this.height+e.height,t)}},q=(function(n){return n[n.ByPos=0]="ByPos",n[n.ByHeight=1]="ByHeight",n[n.ByPosNoHeight=
2]="ByPosNoHeight",n})(q||(q={})),An=.001,me=class n{constructor(e,t,i=2){this.length=e,this.height=t,this.flags=i}get outdated(){
return(this.flags&2)>0}set outdated(e){this.flags=(e?2:0)|this.flags&-3}setHeight(e){this.height!=e&&(Math.abs(this.height-
e)>An&&(si=!0),this.height=e)}replace(e,t,i){return n.of(i)}decomposeLeft(e,t){t.push(this)}decomposeRight(e,t){t.push(this)}applyChanges(e,t,i,s){
let r=this,o=i.doc;for(let l=s.length-1;l>=0;l--){let{fromA:a,toA:h,fromB:c,toB:f}=s[l],u=r.lineAt(a,q.ByPosNoHeight,i.setDoc(
t),0,0),d=u.to>=h?u:r.lineAt(h,q.ByPosNoHeight,i,0,0);for(f+=d.to-h,h=d.to;l>0&&u.from<=s[l-1].toA;)a=s[l-1].fromA,c=s[l-
1].fromB,l--,a<u.from&&(u=r.lineAt(a,q.ByPosNoHeight,i,0,0));c+=u.from-a,a=u.from;let p=Pr.build(i.setDoc(o),e,c,f);r=Nn(
r,r.replace(a,h,p))}return r.updateHeight(i,0)}static empty(){return new Ce(0,0,0)}static of(e){if(e.length==1)return e[0];
let t=0,i=e.length,s=0,r=0;for(;;)if(t==i)if(s>r*2){let l=e[t-1];l.break?e.splice(--t,1,l.left,null,l.right):e.splice(--t,
1,l.left,l.right),i+=1+l.break,s-=l.size}else if(r>s*2){let l=e[i];l.break?e.splice(i,1,l.left,null,l.right):e.splice(i,
1,l.left,l.right),i+=2+l.break,r-=l.size}else break;else if(s<r){let l=e[t++];l&&(s+=l.size)}else{let l=e[--i];l&&(r+=l.
size)}let o=!1;return e[t-1]==null?(o=!0,t--):e[t]==null&&(o=!0,i++),new Rr(n.of(e.slice(0,t)),o,n.of(e.slice(i)))}};function Nn(n,e){
return n==e?n:(n.constructor!=e.constructor&&(si=!0),e)}me.prototype.size=1;var Ou=L.replace({}),Fn=class extends me{constructor(e,t,i){
super(e,t),this.deco=i,this.spaceAbove=0}mainBlock(e,t){return new Le(t,this.length,e+this.spaceAbove,this.height-this.spaceAbove,
this.deco||0)}blockAt(e,t,i,s){return this.spaceAbove&&e<i+this.spaceAbove?new Le(s,0,i,this.spaceAbove,Ou):this.mainBlock(
i,s)}lineAt(e,t,i,s,r){let o=this.mainBlock(s,r);return this.spaceAbove?this.blockAt(0,i,s,r).join(o):o}forEachLine(e,t,i,s,r,o){
e<=r+this.length&&t>=r&&o(this.lineAt(0,q.ByPos,i,s,r))}setMeasuredHeight(e){let t=e.heights[e.index++];t<0?(this.spaceAbove=
-t,t=e.heights[e.index++]):this.spaceAbove=0,this.setHeight(t)}updateHeight(e,t=0,i=!1,s){return s&&s.from<=t&&s.more&&this.
setMeasuredHeight(s),this.outdated=!1,this}toString(){return`block(${this.length})`}},Ce=class n extends Fn{constructor(e,t,i){
super(e,t,null),this.collapsed=0,this.widgetHeight=0,this.breaks=0,this.spaceAbove=i}mainBlock(e,t){return new Le(t,this.
length,e+this.spaceAbove,this.height-this.spaceAbove,this.breaks)}replace(e,t,i){let s=i[0];return i.length==1&&(s instanceof
n||s instanceof rt&&s.flags&4)&&Math.abs(this.length-s.length)<10?(s instanceof rt?s=new n(s.length,this.height,this.spaceAbove):
s.height=this.height,this.outdated||(s.outdated=!1),s):me.of(i)}updateHeight(e,t=0,i=!1,s){return s&&s.from<=t&&s.more?this.
setMeasuredHeight(s):(i||this.outdated)&&(this.spaceAbove=0,this.setHeight(Math.max(this.widgetHeight,e.heightForLine(this.
length-this.collapsed))+this.breaks*e.lineHeight)),this.outdated=!1,this}toString(){return`line(${this.length}${this.collapsed?
-this.collapsed:""}${this.widgetHeight?":"+this.widgetHeight:""})`}},rt=class n extends me{constructor(e){super(e,0)}heightMetrics(e,t){
let i=e.doc.lineAt(t).number,s=e.doc.lineAt(t+this.length).number,r=s-i+1,o,l=0;if(e.lineWrapping){let a=Math.min(this.height,
e.lineHeight*r);o=a/r,this.length>r+1&&(l=(this.height-a)/(this.length-r-1))}else o=this.height/r;return{firstLine:i,lastLine:s,
perLine:o,perChar:l}}blockAt(e,t,i,s){let{firstLine:r,lastLine:o,perLine:l,perChar:a}=this.heightMetrics(t,s);if(t.lineWrapping){
let h=s+(e<t.lineHeight?0:Math.round(Math.max(0,Math.min(1,(e-i)/this.height))*this.length)),c=t.doc.lineAt(h),f=l+c.length*
a,u=Math.max(i,e-f/2);return new Le(c.from,c.length,u,f,0)}else{let h=Math.max(0,Math.min(o-r,Math.floor((e-i)/l))),{from:c,
length:f}=t.doc.line(r+h);return new Le(c,f,i+l*h,l,0)}}lineAt(e,t,i,s,r){if(t==q.ByHeight)return this.blockAt(e,i,s,r);
if(t==q.ByPosNoHeight){let{from:d,to:p}=i.doc.lineAt(e);return new Le(d,p-d,0,0,0)}let{firstLine:o,perLine:l,perChar:a}=this.
heightMetrics(i,r),h=i.doc.lineAt(e),c=l+h.length*a,f=h.number-o,u=s+l*f+a*(h.from-r-f);return new Le(h.from,h.length,Math.
max(s,Math.min(u,s+this.height-c)),c,0)}forEachLine(e,t,i,s,r,o){e=Math.max(e,r),t=Math.min(t,r+this.length);let{firstLine:l,
perLine:a,perChar:h}=this.heightMetrics(i,r);for(let c=e,f=s;c<=t;){let u=i.doc.lineAt(c);if(c==e){let p=u.number-l;f+=a*
p+h*(e-r-p)}let d=a+h*u.length;o(new Le(u.from,u.length,f,d,0)),f+=d,c=u.to+1}}replace(e,t,i){let s=this.length-t;if(s>0){
let r=i[i.length-1];r instanceof n?i[i.length-1]=new n(r.length+s):i.push(null,new n(s-1))}if(e>0){let r=i[0];r instanceof
n?i[0]=new n(e+r.length):i.unshift(new n(e-1),null)}return me.of(i)}decomposeLeft(e,t){t.push(new n(e-1),null)}decomposeRight(e,t){
t.push(null,new n(this.length-e-1))}updateHeight(e,t=0,i=!1,s){let r=t+this.length;if(s&&s.from<=t+this.length&&s.more){
let o=[],l=Math.max(t,s.from),a=-1;for(s.from>t&&o.push(new n(s.from-t-1).updateHeight(e,t));l<=r&&s.more;){let c=e.doc.
lineAt(l).length;o.length&&o.push(null);let f=s.heights[s.index++],u=0;f<0&&(u=-f,f=s.heights[s.index++]),a==-1?a=f:Math.
abs(f-a)>=An&&(a=-2);let d=new Ce(c,f,u);d.outdated=!1,o.push(d),l+=c+1}l<=r&&o.push(null,new n(r-l).updateHeight(e,l));
let h=me.of(o);return(a<0||Math.abs(h.height-this.height)>=An||Math.abs(a-this.heightMetrics(e,t).perLine)>=An)&&(si=!0),
Nn(this,h)}else(i||this.outdated)&&(this.setHeight(e.heightForGap(t,t+this.length)),this.outdated=!1);return this}toString(){
return`gap(${this.length})`}},Rr=class extends me{constructor(e,t,i){super(e.length+(t?1:0)+i.length,e.height+i.height,(t?
1:0)|(e.outdated||i.outdated?2:0)),this.left=e,this.right=i,this.size=e.size+i.size}get break(){return this.flags&1}blockAt(e,t,i,s){
let r=i+this.left.height;return e<r?this.left.blockAt(e,t,i,s):this.right.blockAt(e,t,r,s+this.left.length+this.break)}lineAt(e,t,i,s,r){
let o=s+this.left.height,l=r+this.left.length+this.break,a=t==q.ByHeight?e<o:e<l,h=a?this.left.lineAt(e,t,i,s,r):this.right.
lineAt(e,t,i,o,l);if(this.break||(a?h.to<l:h.from>l))return h;let c=t==q.ByPosNoHeight?q.ByPosNoHeight:q.ByPos;return a?
h.join(this.right.lineAt(l,c,i,o,l)):this.left.lineAt(l,c,i,s,r).join(h)}forEachLine(e,t,i,s,r,o){let l=s+this.left.height,
a=r+this.left.length+this.break;if(this.break)e<a&&this.left.forEachLine(e,t,i,s,r,o),t>=a&&this.right.forEachLine(e,t,i,
l,a,o);else{let h=this.lineAt(a,q.ByPos,i,s,r);e<h.from&&this.left.forEachLine(e,Math.min(t,h.from-1),i,s,r,o),h.to>=e&&
h.from<=t&&o(h),t>h.to&&this.right.forEachLine(Math.max(e,h.to+1),t,i,l,a,o)}}replace(e,t,i){let s=this.left.length+this.
break;if(t<s)return this.balanced(this.left.replace(e,t,i),this.right);if(e>this.left.length)return this.balanced(this.left,
this.right.replace(e-s,t-s,i));let r=[];e>0&&this.decomposeLeft(e,r);let o=r.length;for(let l of i)r.push(l);if(e>0&&Ql(
r,o-1),t<this.length){let l=r.length;this.decomposeRight(t,r),Ql(r,l)}return me.of(r)}decomposeLeft(e,t){let i=this.left.
length;if(e<=i)return this.left.decomposeLeft(e,t);t.push(this.left),this.break&&(i++,e>=i&&t.push(null)),e>i&&this.right.
decomposeLeft(e-i,t)}decomposeRight(e,t){let i=this.left.length,s=i+this.break;if(e>=s)return this.right.decomposeRight(
e-s,t);e<i&&this.left.decomposeRight(e,t),this.break&&e<s&&t.push(null),t.push(this.right)}balanced(e,t){return e.size>2*
t.size||t.size>2*e.size?me.of(this.break?[e,null,t]:[e,t]):(this.left=Nn(this.left,e),this.right=Nn(this.right,t),this.setHeight(
e.height+t.height),this.outdated=e.outdated||t.outdated,this.size=e.size+t.size,this.length=e.length+this.break+t.length,
this)}updateHeight(e,t=0,i=!1,s){let{left:r,right:o}=this,l=t+r.length+this.break,a=null;return s&&s.from<=t+r.length&&s.
more?a=r=r.updateHeight(e,t,i,s):r.updateHeight(e,t,i),s&&s.from<=l+o.length&&s.more?a=o=o.updateHeight(e,l,i,s):o.updateHeight(
e,l,i),a?this.balanced(r,o):(this.height=this.left.height+this.right.height,this.outdated=!1,this)}toString(){return this.
left+(this.break?" ":"-")+this.right}};function Ql(n,e){let t,i;n[e]==null&&(t=n[e-1])instanceof rt&&(i=n[e+1])instanceof
rt&&n.splice(e-1,3,new rt(t.length+1+i.length))}var Bu=5,Pr=class n{constructor(e,t){this.pos=e,this.oracle=t,this.nodes=
[],this.lineStart=-1,this.lineEnd=-1,this.covering=null,this.writtenTo=e}get isCovered(){return this.covering&&this.nodes[this.
nodes.length-1]==this.covering}span(e,t){if(this.lineStart>-1){let i=Math.min(t,this.lineEnd),s=this.nodes[this.nodes.length-
1];s instanceof Ce?s.length+=i-this.pos:(i>this.pos||!this.isCovered)&&this.nodes.push(new Ce(i-this.pos,-1,0)),this.writtenTo=
i,t>i&&(this.nodes.push(null),this.writtenTo++,this.lineStart=-1)}this.pos=t}point(e,t,i){if(e<t||i.heightRelevant){let s=i.
widget?i.widget.estimatedHeight:0,r=i.widget?i.widget.lineBreaks:0;s<0&&(s=this.oracle.lineHeight);let o=t-e;i.block?this.
addBlock(new Fn(o,s,i)):(o||r||s>=Bu)&&this.addLineDeco(s,r,o)}else t>e&&this.span(e,t);this.lineEnd>-1&&this.lineEnd<this.
pos&&(this.lineEnd=this.oracle.doc.lineAt(this.pos).to)}enterLine(){if(this.lineStart>-1)return;let{from:e,to:t}=this.oracle.
doc.lineAt(this.pos);this.lineStart=e,this.lineEnd=t,this.writtenTo<e&&((this.writtenTo<e-1||this.nodes[this.nodes.length-
1]==null)&&this.nodes.push(this.blankContent(this.writtenTo,e-1)),this.nodes.push(null)),this.pos>e&&this.nodes.push(new Ce(
this.pos-e,-1,0)),this.writtenTo=this.pos}blankContent(e,t){let i=new rt(t-e);return this.oracle.doc.lineAt(e).to==t&&(i.
flags|=4),i}ensureLine(){this.enterLine();let e=this.nodes.length?this.nodes[this.nodes.length-1]:null;if(e instanceof Ce)
return e;let t=new Ce(0,-1,0);return this.nodes.push(t),t}addBlock(e){this.enterLine();let t=e.deco;t&&t.startSide>0&&!this.
isCovered&&this.ensureLine(),this.nodes.push(e),this.writtenTo=this.pos=this.pos+e.length,t&&t.endSide>0&&(this.covering=
e)}addLineDeco(e,t,i){let s=this.ensureLine();s.length+=i,s.collapsed+=i,s.widgetHeight=Math.max(s.widgetHeight,e),s.breaks+=
t,this.writtenTo=this.pos=this.pos+i}finish(e){let t=this.nodes.length==0?null:this.nodes[this.nodes.length-1];this.lineStart>
-1&&!(t instanceof Ce)&&!this.isCovered?this.nodes.push(new Ce(0,-1,0)):(this.writtenTo<this.pos||t==null)&&this.nodes.push(
this.blankContent(this.writtenTo,this.pos));let i=e;for(let s of this.nodes)s instanceof Ce&&s.updateHeight(this.oracle,
i),i+=s?s.length:1;return this.nodes}static build(e,t,i,s){let r=new n(i,e);return F.spans(t,i,s,r,0),r.finish(i)}};function Lu(n,e,t){
let i=new Ir;return F.compare(n,e,t,i,0),i.changes}var Ir=class{constructor(){this.changes=[]}compareRange(){}comparePoint(e,t,i,s){
(e<t||i&&i.heightRelevant||s&&s.heightRelevant)&&Xt(e,t,this.changes,5)}};function Eu(n,e){let t=n.getBoundingClientRect(),
i=n.ownerDocument,s=i.defaultView||window,r=Math.max(0,t.left),o=Math.min(s.innerWidth,t.right),l=Math.max(0,t.top),a=Math.
min(s.innerHeight,t.bottom);for(let h=n.parentNode;h&&h!=i.body;)if(te(h)){let c=window.getComputedStyle(h);if((h.scrollHeight>
h.clientHeight||h.scrollWidth>h.clientWidth)&&c.overflow!="visible"){let f=h.getBoundingClientRect();r=Math.max(r,f.left),
o=Math.min(o,f.right),l=Math.max(l,f.top),a=Math.min(h==n.parentNode?s.innerHeight:a,f.bottom)}h=c.position=="absolute"||
c.position=="fixed"?h.offsetParent:h.parentNode}else if(h.nodeType==11)h=h.host;else break;return{left:r-t.left,right:Math.
max(r,o)-t.left,top:l-(t.top+e),bottom:Math.max(l,a)-(t.top+e)}}function Ru(n){let e=n.getBoundingClientRect(),t=n.ownerDocument.
defaultView||window;return e.left<t.innerWidth&&e.right>0&&e.top<t.innerHeight&&e.bottom>0}function Pu(n,e){let t=n.getBoundingClientRect();
return{left:0,right:t.right-t.left,top:e,bottom:t.bottom-(t.top+e)}}var Ti=class{constructor(e,t,i,s){this.from=e,this.to=
t,this.size=i,this.displaySize=s}static same(e,t){if(e.length!=t.length)return!1;for(let i=0;i<e.length;i++){let s=e[i],
r=t[i];if(s.from!=r.from||s.to!=r.to||s.size!=r.size)return!1}return!0}draw(e,t){return L.replace({widget:new Nr(this.displaySize*
(t?e.scaleY:e.scaleX),t)}).range(this.from,this.to)}},Nr=class extends et{constructor(e,t){super(),this.size=e,this.vertical=
t}eq(e){return e.size==this.size&&e.vertical==this.vertical}toDOM(){let e=document.createElement("div");return this.vertical?
e.style.height=this.size+"px":(e.style.width=this.size+"px",e.style.height="2px",e.style.display="inline-block"),e}get estimatedHeight(){
return this.vertical?this.size:-1}},Hn=class{constructor(e,t){this.view=e,this.state=t,this.pixelViewport={left:0,right:window.
innerWidth,top:0,bottom:0},this.inView=!0,this.paddingTop=0,this.paddingBottom=0,this.contentDOMWidth=0,this.contentDOMHeight=
0,this.editorHeight=0,this.editorWidth=0,this.scaleX=1,this.scaleY=1,this.scrollOffset=0,this.scrolledToBottom=!1,this.scrollAnchorPos=
0,this.scrollAnchorHeight=-1,this.scaler=Fr,this.scrollTarget=null,this.printing=!1,this.mustMeasureContent=!0,this.defaultTextDirection=
K.LTR,this.visibleRanges=[],this.mustEnforceCursorAssoc=!1;let i=t.facet(eo).some(s=>typeof s!="function"&&s.class=="cm-\
lineWrapping");this.heightOracle=new Lr(i),this.stateDeco=Zl(t),this.heightMap=me.empty().applyChanges(this.stateDeco,P.
empty,this.heightOracle.setDoc(t.doc),[new Ee(0,0,0,t.doc.length)]);for(let s=0;s<2&&(this.viewport=this.getViewport(0,null),
!!this.updateForViewport());s++);this.updateViewportLines(),this.lineGaps=this.ensureLineGaps([]),this.lineGapDeco=L.set(
this.lineGaps.map(s=>s.draw(this,!1))),this.scrollParent=e.scrollDOM,this.computeVisibleRanges()}updateForViewport(){let e=[
this.viewport],{main:t}=this.state.selection;for(let i=0;i<=1;i++){let s=i?t.head:t.anchor;if(!e.some(({from:r,to:o})=>s>=
r&&s<=o)){let{from:r,to:o}=this.lineBlockAt(s);e.push(new Ut(r,o))}}return this.viewports=e.sort((i,s)=>i.from-s.from),this.
updateScaler()}updateScaler(){let e=this.scaler;return this.scaler=this.heightMap.height<=7e6?Fr:Hr.get(this.heightOracle,
this.heightMap,this.viewports),e.eq(this.scaler)?0:2}updateViewportLines(){this.viewportLines=[],this.heightMap.forEachLine(
this.viewport.from,this.viewport.to,this.heightOracle.setDoc(this.state.doc),0,0,e=>{this.viewportLines.push(wi(e,this.scaler))})}update(e,t=null){
this.state=e.state;let i=this.stateDeco;this.stateDeco=Zl(this.state);let s=e.changedRanges,r=Ee.extendWithRanges(s,Lu(i,
this.stateDeco,e?e.changes:ae.empty(this.state.doc.length))),o=this.heightMap.height,l=this.scrolledToBottom?null:this.scrollAnchorAt(
this.scrollOffset);Jl(),this.heightMap=this.heightMap.applyChanges(this.stateDeco,e.startState.doc,this.heightOracle.setDoc(
this.state.doc),r),(this.heightMap.height!=o||si)&&(e.flags|=2),l?(this.scrollAnchorPos=e.changes.mapPos(l.from,-1),this.
scrollAnchorHeight=l.top):(this.scrollAnchorPos=-1,this.scrollAnchorHeight=o);let a=r.length?this.mapViewport(this.viewport,
e.changes):this.viewport;(t&&(t.range.head<a.from||t.range.head>a.to)||!this.viewportIsAppropriate(a))&&(a=this.getViewport(
0,t));let h=a.from!=this.viewport.from||a.to!=this.viewport.to;this.viewport=a,e.flags|=this.updateForViewport(),(h||!e.
changes.empty||e.flags&2)&&this.updateViewportLines(),(this.lineGaps.length||this.viewport.to-this.viewport.from>4e3)&&this.
updateLineGaps(this.ensureLineGaps(this.mapLineGaps(this.lineGaps,e.changes))),e.flags|=this.computeVisibleRanges(e.changes),
t&&(this.scrollTarget=t),!this.mustEnforceCursorAssoc&&(e.selectionSet||e.focusChanged)&&e.view.lineWrapping&&e.state.selection.
main.empty&&e.state.selection.main.assoc&&!e.state.facet(zf)&&(this.mustEnforceCursorAssoc=!0)}measure(){let{view:e}=this,
t=e.contentDOM,i=window.getComputedStyle(t),s=this.heightOracle,r=i.whiteSpace;this.defaultTextDirection=i.direction=="r\
tl"?K.RTL:K.LTR;let o=this.heightOracle.mustRefreshForWrapping(r)||this.mustMeasureContent==="refresh",l=t.getBoundingClientRect(),
a=o||this.mustMeasureContent||this.contentDOMHeight!=l.height;this.contentDOMHeight=l.height,this.mustMeasureContent=!1;
let h=0,c=0;if(l.width&&l.height){let{scaleX:S,scaleY:D}=pa(t,l);(S>.005&&Math.abs(this.scaleX-S)>.005||D>.005&&Math.abs(
this.scaleY-D)>.005)&&(this.scaleX=S,this.scaleY=D,h|=16,o=a=!0)}let f=(parseInt(i.paddingTop)||0)*this.scaleY,u=(parseInt(
i.paddingBottom)||0)*this.scaleY;(this.paddingTop!=f||this.paddingBottom!=u)&&(this.paddingTop=f,this.paddingBottom=u,h|=
18),this.editorWidth!=e.scrollDOM.clientWidth&&(s.lineWrapping&&(a=!0),this.editorWidth=e.scrollDOM.clientWidth,h|=16);let d=ga(
this.view.contentDOM,!1).y;d!=this.scrollParent&&(this.scrollParent=d,this.scrollAnchorHeight=-1,this.scrollOffset=0);let p=this.
getScrollOffset();this.scrollOffset!=p&&(this.scrollAnchorHeight=-1,this.scrollOffset=p),this.scrolledToBottom=xa(this.scrollParent||
e.win);let g=(this.printing?Pu:Eu)(t,this.paddingTop),m=g.top-this.pixelViewport.top,y=g.bottom-this.pixelViewport.bottom;
this.pixelViewport=g;let A=this.pixelViewport.bottom>this.pixelViewport.top&&this.pixelViewport.right>this.pixelViewport.
left;if(A!=this.inView&&(this.inView=A,A&&(a=!0)),!this.inView&&!this.scrollTarget&&!Ru(e.dom))return 0;let b=l.width;if((this.
contentDOMWidth!=b||this.editorHeight!=e.scrollDOM.clientHeight)&&(this.contentDOMWidth=l.width,this.editorHeight=e.scrollDOM.
clientHeight,h|=16),a){let S=e.docView.measureVisibleLineHeights(this.viewport);if(s.mustRefreshForHeights(S)&&(o=!0),o||
s.lineWrapping&&Math.abs(b-this.contentDOMWidth)>s.charWidth){let{lineHeight:D,charWidth:O,textHeight:N}=e.docView.measureTextSize();
o=D>0&&s.refresh(r,D,O,N,Math.max(5,b/O),S),o&&(e.docView.minWidth=0,h|=16)}m>0&&y>0?c=Math.max(m,y):m<0&&y<0&&(c=Math.min(
m,y)),Jl();for(let D of this.viewports){let O=D.from==this.viewport.from?S:e.docView.measureVisibleLineHeights(D);this.heightMap=
(o?me.empty().applyChanges(this.stateDeco,P.empty,this.heightOracle,[new Ee(0,0,0,e.state.doc.length)]):this.heightMap).
updateHeight(s,0,o,new Er(D.from,O))}si&&(h|=2)}let T=!this.viewportIsAppropriate(this.viewport,c)||this.scrollTarget&&(this.
scrollTarget.range.head<this.viewport.from||this.scrollTarget.range.head>this.viewport.to);return T&&(h&2&&(h|=this.updateScaler()),
this.viewport=this.getViewport(c,this.scrollTarget),h|=this.updateForViewport()),(h&2||T)&&this.updateViewportLines(),(this.
lineGaps.length||this.viewport.to-this.viewport.from>4e3)&&this.updateLineGaps(this.ensureLineGaps(o?[]:this.lineGaps,e)),
h|=this.computeVisibleRanges(),this.mustEnforceCursorAssoc&&(this.mustEnforceCursorAssoc=!1,e.docView.enforceCursorAssoc()),
h}get visibleTop(){return this.scaler.fromDOM(this.pixelViewport.top)}get visibleBottom(){return this.scaler.fromDOM(this.
pixelViewport.bottom)}getViewport(e,t){let i=.5-Math.max(-.5,Math.min(.5,e/1e3/2)),s=this.heightMap,r=this.heightOracle,
{visibleTop:o,visibleBottom:l}=this,a=new Ut(s.lineAt(o-i*1e3,q.ByHeight,r,0,0).from,s.lineAt(l+(1-i)*1e3,q.ByHeight,r,0,
0).to);if(t){let{head:h}=t.range;if(h<a.from||h>a.to){let c=Math.min(this.editorHeight,this.pixelViewport.bottom-this.pixelViewport.
top),f=s.lineAt(h,q.ByPos,r,0,0),u;t.y=="center"?u=(f.top+f.bottom)/2-c/2:t.y=="start"||t.y=="nearest"&&h<a.from?u=f.top:
u=f.bottom-c,a=new Ut(s.lineAt(u-1e3/2,q.ByHeight,r,0,0).from,s.lineAt(u+c+1e3/2,q.ByHeight,r,0,0).to)}}return a}mapViewport(e,t){
let i=t.mapPos(e.from,-1),s=t.mapPos(e.to,1);return new Ut(this.heightMap.lineAt(i,q.ByPos,this.heightOracle,0,0).from,this.
heightMap.lineAt(s,q.ByPos,this.heightOracle,0,0).to)}viewportIsAppropriate({from:e,to:t},i=0){if(!this.inView)return!0;
let{top:s}=this.heightMap.lineAt(e,q.ByPos,this.heightOracle,0,0),{bottom:r}=this.heightMap.lineAt(t,q.ByPos,this.heightOracle,
0,0),{visibleTop:o,visibleBottom:l}=this;return(e==0||s<=o-Math.max(10,Math.min(-i,250)))&&(t==this.state.doc.length||r>=
l+Math.max(10,Math.min(i,250)))&&s>o-2*1e3&&r<l+2*1e3}mapLineGaps(e,t){if(!e.length||t.empty)return e;let i=[];for(let s of e)
t.touchesRange(s.from,s.to)||i.push(new Ti(t.mapPos(s.from),t.mapPos(s.to),s.size,s.displaySize));return i}ensureLineGaps(e,t){
let i=this.heightOracle.lineWrapping,s=i?1e4:2e3,r=s>>1,o=s<<1;if(this.defaultTextDirection!=K.LTR&&!i)return[];let l=[],
a=(c,f,u,d)=>{if(f-c<r)return;let p=this.state.selection.main,g=[p.from];p.empty||g.push(p.to);for(let y of g)if(y>c&&y<
f){a(c,y-10,u,d),a(y+10,f,u,d);return}let m=Nu(e,y=>y.from>=u.from&&y.to<=u.to&&Math.abs(y.from-c)<r&&Math.abs(y.to-f)<r&&
!g.some(A=>y.from<A&&y.to>A));if(!m){if(f<u.to&&t&&i&&t.visibleRanges.some(b=>b.from<=f&&b.to>=f)){let b=t.moveToLineBoundary(
x.cursor(f),!1,!0).head;b>c&&(f=b)}let y=this.gapSize(u,c,f,d),A=i||y<2e6?y:2e6;m=new Ti(c,f,y,A)}l.push(m)},h=c=>{if(c.
length<o||c.type!=de.Text)return;let f=Iu(c.from,c.to,this.stateDeco);if(f.total<o)return;let u=this.scrollTarget?this.scrollTarget.
range.head:null,d,p;if(i){let g=s/this.heightOracle.lineLength*this.heightOracle.lineHeight,m,y;if(u!=null){let A=xn(f,u),
b=((this.visibleBottom-this.visibleTop)/2+g)/c.height;m=A-b,y=A+b}else m=(this.visibleTop-c.top-g)/c.height,y=(this.visibleBottom-
c.top+g)/c.height;d=bn(f,m),p=bn(f,y)}else{let g=f.total*this.heightOracle.charWidth,m=s*this.heightOracle.charWidth,y=0;
if(g>2e6)for(let D of e)D.from>=c.from&&D.from<c.to&&D.size!=D.displaySize&&D.from*this.heightOracle.charWidth+y<this.pixelViewport.
left&&(y=D.size-D.displaySize);let A=this.pixelViewport.left+y,b=this.pixelViewport.right+y,T,S;if(u!=null){let D=xn(f,u),
O=((b-A)/2+m)/g;T=D-O,S=D+O}else T=(A-m)/g,S=(b+m)/g;d=bn(f,T),p=bn(f,S)}d>c.from&&a(c.from,d,c,f),p<c.to&&a(p,c.to,c,f)};
for(let c of this.viewportLines)Array.isArray(c.type)?c.type.forEach(h):h(c);return l}gapSize(e,t,i,s){let r=xn(s,i)-xn(
s,t);return this.heightOracle.lineWrapping?e.height*r:s.total*this.heightOracle.charWidth*r}updateLineGaps(e){Ti.same(e,
this.lineGaps)||(this.lineGaps=e,this.lineGapDeco=L.set(e.map(t=>t.draw(this,this.heightOracle.lineWrapping))))}computeVisibleRanges(e){
let t=this.stateDeco;this.lineGaps.length&&(t=t.concat(this.lineGapDeco));let i=[];F.spans(t,this.viewport.from,this.viewport.
to,{span(r,o){i.push({from:r,to:o})},point(){}},20);let s=0;if(i.length!=this.visibleRanges.length)s=12;else for(let r=0;r<
i.length&&!(s&8);r++){let o=this.visibleRanges[r],l=i[r];(o.from!=l.from||o.to!=l.to)&&(s|=4,e&&e.mapPos(o.from,-1)==l.from&&
e.mapPos(o.to,1)==l.to||(s|=8))}return this.visibleRanges=i,s}lineBlockAt(e){return e>=this.viewport.from&&e<=this.viewport.
to&&this.viewportLines.find(t=>t.from<=e&&t.to>=e)||wi(this.heightMap.lineAt(e,q.ByPos,this.heightOracle,0,0),this.scaler)}lineBlockAtHeight(e){
return e>=this.viewportLines[0].top&&e<=this.viewportLines[this.viewportLines.length-1].bottom&&this.viewportLines.find(
t=>t.top<=e&&t.bottom>=e)||wi(this.heightMap.lineAt(this.scaler.fromDOM(e),q.ByHeight,this.heightOracle,0,0),this.scaler)}getScrollOffset(){
return this.scrollParent==this.view.scrollDOM?this.scrollParent.scrollTop*this.scaleY:(this.scrollParent?this.scrollParent.
getBoundingClientRect().top:0)-this.view.contentDOM.getBoundingClientRect().top}scrollAnchorAt(e){let t=this.lineBlockAtHeight(
e+12-this.paddingTop);return t.from>=this.viewport.from||this.viewportLines[0].top-e>200?t:this.viewportLines[0]}elementAtHeight(e){
return wi(this.heightMap.blockAt(this.scaler.fromDOM(e),this.heightOracle,0,0),this.scaler)}get docHeight(){return this.
scaler.toDOM(this.heightMap.height)}get contentHeight(){return this.docHeight+this.paddingTop+this.paddingBottom}},Ut=class{constructor(e,t){
this.from=e,this.to=t}};function Iu(n,e,t){let i=[],s=n,r=0;return F.spans(t,n,e,{span(){},point(o,l){o>s&&(i.push({from:s,
to:o}),r+=o-s),s=l}},20),s<e&&(i.push({from:s,to:e}),r+=e-s),{total:r,ranges:i}}function bn({total:n,ranges:e},t){if(t<=
0)return e[0].from;if(t>=1)return e[e.length-1].to;let i=Math.floor(n*t);for(let s=0;;s++){let{from:r,to:o}=e[s],l=o-r;if(i<=
l)return r+i;i-=l}}function xn(n,e){let t=0;for(let{from:i,to:s}of n.ranges){if(e<=s){t+=e-i;break}t+=s-i}return t/n.total}
function Nu(n,e){for(let t of n)if(e(t))return t}var Fr={toDOM(n){return n},fromDOM(n){return n},scale:1,eq(n){return n==
this}};function Zl(n){let e=n.facet(Gn).filter(i=>typeof i!="function"),t=n.facet(to).filter(i=>typeof i!="function");return t.
length&&e.push(F.join(t)),e}var Hr=class n{constructor(e,t){this.scale=e,this.viewports=t}static get(e,t,i){let s=0,r=0,
o=0,l=i.map(({from:h,to:c})=>{let f=t.lineAt(h,q.ByPos,e,0,0).top,u=t.lineAt(c,q.ByPos,e,0,0).bottom;return s+=u-f,{from:h,
to:c,top:f,bottom:u,domTop:0,domBottom:0}});if(t.height-s<10)return Fr;let a=(7e6-s)/(t.height-s);for(let h of l)h.domTop=
o+(h.top-r)*a,o=h.domBottom=h.domTop+(h.bottom-h.top),r=h.bottom;return new n(a,l)}toDOM(e){for(let t=0,i=0,s=0;;t++){let r=t<
this.viewports.length?this.viewports[t]:null;if(!r||e<r.top)return s+(e-i)*this.scale;if(e<=r.bottom)return r.domTop+(e-
r.top);i=r.bottom,s=r.domBottom}}fromDOM(e){for(let t=0,i=0,s=0;;t++){let r=t<this.viewports.length?this.viewports[t]:null;
if(!r||e<r.domTop)return i+(e-s)/this.scale;if(e<=r.domBottom)return r.top+(e-r.domTop);i=r.bottom,s=r.domBottom}}eq(e){
return e instanceof n?this.scale==e.scale&&this.viewports.length==e.viewports.length&&this.viewports.every((t,i)=>t.from==
e.viewports[i].from&&t.to==e.viewports[i].to):!1}};function wi(n,e){if(e.scale==1)return n;let t=e.toDOM(n.top),i=e.toDOM(
n.bottom);return new Le(n.from,n.length,t,i-t,Array.isArray(n._content)?n._content.map(s=>wi(s,e)):n._content)}var wn=C.
define({combine:n=>n.join(" ")}),Wr=C.define({combine:n=>n.indexOf(!0)>-1}),Vr=Se.newName(),th=Se.newName(),ih=Se.newName(),
nh={"&light":"."+th,"&dark":"."+ih};function zr(n,e,t){return new Se(e,{finish(i){return/&/.test(i)?i.replace(/&\w*/,s=>{
if(s=="&")return n;if(!t||!t[s])throw new RangeError(`Unsupported selector: ${s}`);return t[s]}):n+" "+i}})}var Fu=zr("."+
Vr,{"&":{position:"relative !important",boxSizing:"border-box","&.cm-focused":{outline:"1px dotted #212121"},display:"fl\
ex !important",flexDirection:"column"},".cm-scroller":{display:"flex !important",alignItems:"flex-start !important",fontFamily:"\
monospace",lineHeight:1.4,height:"100%",overflowX:"auto",position:"relative",zIndex:0,overflowAnchor:"none"},".cm-conten\
t":{margin:0,flexGrow:2,flexShrink:0,display:"block",whiteSpace:"pre",wordWrap:"normal",boxSizing:"border-box",minHeight:"\
100%",padding:"4px 0",outline:"none","&[contenteditable=true]":{WebkitUserModify:"read-write-plaintext-only"}},".cm-line\
Wrapping":{whiteSpace_fallback:"pre-wrap",whiteSpace:"break-spaces",wordBreak:"break-word",overflowWrap:"anywhere",flexShrink:1},
"&light .cm-content":{caretColor:"black"},"&dark .cm-content":{caretColor:"white"},".cm-line":{display:"block",padding:"\
0 2px 0 6px"},".cm-layer":{userSelect:"none",position:"absolute",left:0,top:0,contain:"size style","& > *":{position:"ab\
solute"}},"&light .cm-selectionBackground":{background:"#d9d9d9"},"&dark .cm-selectionBackground":{background:"#222"},"&\
light.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground":{background:"#d7d4f0"},"&dark.cm-focused >\
 .cm-scroller > .cm-selectionLayer .cm-selectionBackground":{background:"#233"},".cm-cursorLayer":{pointerEvents:"none"},
"&.cm-focused > .cm-scroller > .cm-cursorLayer":{animation:"steps(1) cm-blink 1.2s infinite"},"@keyframes cm-blink":{"0%":{},
"50%":{opacity:0},"100%":{}},"@keyframes cm-blink2":{"0%":{},"50%":{opacity:0},"100%":{}},".cm-cursor, .cm-dropCursor":{
borderLeft:"1.2px solid black",marginLeft:"-0.6px",pointerEvents:"none"},".cm-cursor":{display:"none"},"&dark .cm-cursor":{
borderLeftColor:"#ddd"},".cm-selectionHandle":{backgroundColor:"currentColor",width:"1.5px"},".cm-selectionHandle-start:\
:before, .cm-selectionHandle-end::before":{content:'""',backgroundColor:"inherit",borderRadius:"50%",width:"8px",height:"\
8px",position:"absolute",left:"-3.25px"},".cm-selectionHandle-start::before":{top:"-8px"},".cm-selectionHandle-end::befo\
re":{bottom:"-8px"},".cm-dropCursor":{position:"absolute"},"&.cm-focused > .cm-scroller > .cm-cursorLayer .cm-cursor":{display:"\
block"},".cm-iso":{unicodeBidi:"isolate"},".cm-announced":{position:"fixed",top:"-10000px"},"@media print":{".cm-announc\
ed":{display:"none"}},"&light .cm-activeLine":{backgroundColor:"#cceeff44"},"&dark .cm-activeLine":{backgroundColor:"#99\
eeff33"},"&light .cm-specialChar":{color:"red"},"&dark .cm-specialChar":{color:"#f78"},".cm-gutters":{flexShrink:0,display:"\
flex",height:"100%",boxSizing:"border-box",zIndex:200},".cm-gutters-before":{insetInlineStart:0},".cm-gutters-after":{insetInlineEnd:0},
"&light .cm-gutters":{backgroundColor:"#f5f5f5",color:"#6c6c6c",border:"0px solid #ddd","&.cm-gutters-before":{borderRightWidth:"\
1px"},"&.cm-gutters-after":{borderLeftWidth:"1px"}},"&dark .cm-gutters":{backgroundColor:"#333338",color:"#ccc"},".cm-gu\
tter":{display:"flex !important",flexDirection:"column",flexShrink:0,boxSizing:"border-box",minHeight:"100%",overflow:"h\
idden"},".cm-gutterElement":{boxSizing:"border-box"},".cm-lineNumbers .cm-gutterElement":{padding:"0 3px 0 5px",minWidth:"\
20px",textAlign:"right",whiteSpace:"nowrap"},"&light .cm-activeLineGutter":{backgroundColor:"#e2f2ff"},"&dark .cm-active\
LineGutter":{backgroundColor:"#222227"},".cm-panels":{boxSizing:"border-box",position:"sticky",left:0,right:0,zIndex:300},
"&light .cm-panels":{backgroundColor:"#f5f5f5",color:"black"},".cm-panels-top":{top:"0"},".cm-panels-bottom":{bottom:"0"},
"&light .cm-panels-top":{borderBottom:"1px solid #ddd"},"&light .cm-panels-bottom":{borderTop:"1px solid #ddd"},"&dark .\
cm-panels":{backgroundColor:"#333338",color:"white"},".cm-dialog":{padding:"2px 19px 4px 6px",position:"relative","& lab\
el":{fontSize:"80%"}},".cm-dialog-close":{position:"absolute",top:"3px",right:"4px",backgroundColor:"inherit",border:"no\
ne",font:"inherit",fontSize:"14px",padding:"0"},".cm-tab":{display:"inline-block",overflow:"hidden",verticalAlign:"botto\
m"},".cm-widgetBuffer":{verticalAlign:"baseline",height:"1em",width:0,display:"inline"},".cm-placeholder":{color:"#888",
display:"inline-block",verticalAlign:"top",userSelect:"none"},".cm-highlightSpace":{background:"radial-gradient(circle a\
t 50% 55%, #aaa 20%, transparent 0) no-repeat",backgroundSize:".4em",backgroundPosition:"calc(min(50%, 0px)) center"},".\
cm-highlightTab":{backgroundImage:`url('data:image/svg+xml,<svg xmlns="http://www.w3.org/2000/svg" width="200" height="2\
0"><path stroke="%23888" stroke-width="1" fill="none" d="M1 10H196L190 5M190 15L196 10M197 4L197 16"/></svg>')`,backgroundSize:"\
auto 100%",backgroundPosition:"right 90%",backgroundRepeat:"no-repeat"},".cm-trailingSpace":{backgroundColor:"#ff332255"},
".cm-button":{verticalAlign:"middle",color:"inherit",fontSize:"70%",padding:".2em 1em",borderRadius:"1px"},"&light .cm-b\
utton":{backgroundImage:"linear-gradient(#eff1f5, #d9d9df)",border:"1px solid #888","&:active":{backgroundImage:"linear-\
gradient(#b4b4b4, #d0d3d6)"}},"&dark .cm-button":{backgroundImage:"linear-gradient(#393939, #111)",border:"1px solid #88\
8","&:active":{backgroundImage:"linear-gradient(#111, #333)"}},".cm-textfield":{verticalAlign:"middle",color:"inherit",fontSize:"\
70%",border:"1px solid silver",padding:".2em .5em"},"&light .cm-textfield":{backgroundColor:"white"},"&dark .cm-textfiel\
d":{border:"1px solid #555",backgroundColor:"inherit"}},nh),Hu={childList:!0,characterData:!0,subtree:!0,attributes:!0,characterDataOldValue:!0},
ir=v.ie&&v.ie_version<=11,qr=class{constructor(e){this.view=e,this.active=!1,this.editContext=null,this.selectionRange=new cr,
this.selectionChanged=!1,this.delayedFlush=-1,this.resizeTimeout=-1,this.queue=[],this.delayedAndroidKey=null,this.flushingAndroidKey=
-1,this.lastChange=0,this.scrollTargets=[],this.intersection=null,this.resizeScroll=null,this.intersecting=!1,this.gapIntersection=
null,this.gaps=[],this.printQuery=null,this.parentCheck=-1,this.dom=e.contentDOM,this.observer=new MutationObserver(t=>{
for(let i of t)this.queue.push(i);(v.ie&&v.ie_version<=11||v.ios&&e.composing)&&t.some(i=>i.type=="childList"&&i.removedNodes.
length||i.type=="characterData"&&i.oldValue.length>i.target.nodeValue.length)?this.flushSoon():this.flush()}),window.EditContext&&
v.android&&e.constructor.EDIT_CONTEXT!==!1&&!(v.chrome&&v.chrome_version<126)&&(this.editContext=new Kr(e),e.state.facet(
Qe)&&(e.contentDOM.editContext=this.editContext.editContext)),ir&&(this.onCharData=t=>{this.queue.push({target:t.target,
type:"characterData",oldValue:t.prevValue}),this.flushSoon()}),this.onSelectionChange=this.onSelectionChange.bind(this),
this.onResize=this.onResize.bind(this),this.onPrint=this.onPrint.bind(this),this.onScroll=this.onScroll.bind(this),window.
matchMedia&&(this.printQuery=window.matchMedia("print")),typeof ResizeObserver=="function"&&(this.resizeScroll=new ResizeObserver(
()=>{var t;((t=this.view.docView)===null||t===void 0?void 0:t.lastUpdate)<Date.now()-75&&this.onResize()}),this.resizeScroll.
observe(e.scrollDOM)),this.addWindowListeners(this.win=e.win),this.start(),typeof IntersectionObserver=="function"&&(this.
intersection=new IntersectionObserver(t=>{this.parentCheck<0&&(this.parentCheck=setTimeout(this.listenForScroll.bind(this),
1e3)),t.length>0&&t[t.length-1].intersectionRatio>0!=this.intersecting&&(this.intersecting=!this.intersecting,this.intersecting!=
this.view.inView&&this.onScrollChanged(document.createEvent("Event")))},{threshold:[0,.001]}),this.intersection.observe(
this.dom),this.gapIntersection=new IntersectionObserver(t=>{t.length>0&&t[t.length-1].intersectionRatio>0&&this.onScrollChanged(
document.createEvent("Event"))},{})),this.listenForScroll(),this.readSelectionRange()}onScrollChanged(e){this.view.inputState.
runHandlers("scroll",e),this.intersecting&&this.view.measure()}onScroll(e){this.intersecting&&this.flush(this.pendingRecords().
length>0),this.editContext&&this.view.requestMeasure(this.editContext.measureReq),this.onScrollChanged(e)}onResize(){this.
resizeTimeout<0&&(this.resizeTimeout=setTimeout(()=>{this.resizeTimeout=-1,this.view.requestMeasure()},50))}onPrint(e){(e.
type=="change"||!e.type)&&!e.matches||(this.view.viewState.printing=!0,this.view.measure(),setTimeout(()=>{this.view.viewState.
printing=!1,this.view.requestMeasure()},500))}updateGaps(e){if(this.gapIntersection&&(e.length!=this.gaps.length||this.gaps.
some((t,i)=>t!=e[i]))){this.gapIntersection.disconnect();for(let t of e)this.gapIntersection.observe(t);this.gaps=e}}onSelectionChange(e){
let t=this.selectionChanged;if(!this.readSelectionRange()||this.delayedAndroidKey)return;let{view:i}=this,s=this.selectionRange;
if(i.state.facet(Qe)?i.root.activeElement!=this.dom:!ki(this.dom,s))return;let r=s.anchorNode&&i.docView.tile.nearest(s.
anchorNode);if(r&&r.isWidget()&&r.widget.ignoreEvent(e)){t||(this.selectionChanged=!1);return}(v.ie&&v.ie_version<=11||v.
android&&v.chrome)&&!i.state.selection.main.empty&&s.focusNode&&vi(s.focusNode,s.focusOffset,s.anchorNode,s.anchorOffset)?
this.flushSoon():this.flush(!1)}readSelectionRange(){let{view:e}=this,t=Ei(e.root);if(!t)return!1;let i=v.safari&&e.root.
nodeType==11&&e.root.activeElement==this.dom&&Wu(this.view,t)||t;if(!i||this.selectionRange.eq(i))return!1;let s=ki(this.
dom,i);return s&&!this.selectionChanged&&e.inputState.lastFocusTime>Date.now()-200&&e.inputState.lastTouchTime<Date.now()-
300&&Lf(this.dom,i)?(this.view.inputState.lastFocusTime=0,e.docView.updateSelection(),!1):(this.selectionRange.setRange(
i),s&&(this.selectionChanged=!0),!0)}setSelectionRange(e,t){this.selectionRange.set(e.node,e.offset,t.node,t.offset),this.
selectionChanged=!1}clearSelectionRange(){this.selectionRange.set(null,0,null,0)}listenForScroll(){this.parentCheck=-1;let e=0,
t=null;for(let i=this.dom;i;)if(te(i))!t&&e<this.scrollTargets.length&&this.scrollTargets[e]==i?e++:t||(t=this.scrollTargets.
slice(0,e)),t&&t.push(i),i=i.assignedSlot||i.parentNode;else if(i.nodeType==11)i=i.host;else break;if(e<this.scrollTargets.
length&&!t&&(t=this.scrollTargets.slice(0,e)),t){for(let i of this.scrollTargets)i.removeEventListener("scroll",this.onScroll);
for(let i of this.scrollTargets=t)i.addEventListener("scroll",this.onScroll)}}ignore(e){if(!this.active)return e();try{return this.
stop(),e()}finally{this.start(),this.clear()}}start(){this.active||(this.observer.observe(this.dom,Hu),ir&&this.dom.addEventListener(
"DOMCharacterDataModified",this.onCharData),this.active=!0)}stop(){this.active&&(this.active=!1,this.observer.disconnect(),
ir&&this.dom.removeEventListener("DOMCharacterDataModified",this.onCharData))}clear(){this.processRecords(),this.queue.length=
0,this.selectionChanged=!1}delayAndroidKey(e,t){var i;if(!this.delayedAndroidKey){let s=()=>{let r=this.delayedAndroidKey;
r&&(this.clearDelayedAndroidKey(),this.view.inputState.lastKeyCode=r.keyCode,this.view.inputState.lastKeyTime=Date.now(),
!this.flush()&&r.force&&Jt(this.dom,r.key,r.keyCode))};this.flushingAndroidKey=this.view.win.requestAnimationFrame(s)}(!this.
delayedAndroidKey||e=="Enter")&&(this.delayedAndroidKey={key:e,keyCode:t,force:this.lastChange<Date.now()-50||!!(!((i=this.
delayedAndroidKey)===null||i===void 0)&&i.force)})}clearDelayedAndroidKey(){this.win.cancelAnimationFrame(this.flushingAndroidKey),
this.delayedAndroidKey=null,this.flushingAndroidKey=-1}flushSoon(){this.delayedFlush<0&&(this.delayedFlush=this.view.win.
requestAnimationFrame(()=>{this.delayedFlush=-1,this.flush()}))}forceFlush(){this.delayedFlush>=0&&(this.view.win.cancelAnimationFrame(
this.delayedFlush),this.delayedFlush=-1),this.flush()}pendingRecords(){for(let e of this.observer.takeRecords())this.queue.
push(e);return this.queue}processRecords(){let e=this.pendingRecords();e.length&&(this.queue=[]);let t=-1,i=-1,s=!1;for(let r of e){
let o=this.readMutation(r);o&&(o.typeOver&&(s=!0),t==-1?{from:t,to:i}=o:(t=Math.min(o.from,t),i=Math.max(o.to,i)))}return{
from:t,to:i,typeOver:s}}readChange(){let{from:e,to:t,typeOver:i}=this.processRecords(),s=this.selectionChanged&&ki(this.
dom,this.selectionRange);if(e<0&&!s)return null;e>-1&&(this.lastChange=Date.now()),this.view.inputState.lastFocusTime=0,
this.selectionChanged=!1;let r=new Mr(this.view,e,t,i);return this.view.docView.domChanged={newSel:r.newSel?r.newSel.main:
null},r}flush(e=!0){if(this.delayedFlush>=0||this.delayedAndroidKey)return!1;e&&this.readSelectionRange();let t=this.selectionChanged,
i=this.readChange();if(!i)return this.view.requestMeasure(),!1;let s=this.view.state,r=ja(this.view,i);return this.view.
state==s&&(i.domChanged||t)&&this.view.update([]),r}readMutation(e){let t=this.view.docView.tile.nearest(e.target);if(!t||
t.isWidget())return null;if(t.markDirty(e.type=="attributes"),e.type=="childList"){let i=ea(t,e.previousSibling||e.target.
previousSibling,-1),s=ea(t,e.nextSibling||e.target.nextSibling,1);return{from:i?t.posAfter(i):t.posAtStart,to:s?t.posBefore(
s):t.posAtEnd,typeOver:!1}}else return e.type=="characterData"?{from:t.posAtStart,to:t.posAtEnd,typeOver:e.target.nodeValue==
e.oldValue}:null}setWindow(e){e!=this.win&&(this.removeWindowListeners(this.win),this.win=e,this.addWindowListeners(this.
win))}addWindowListeners(e){e.addEventListener("resize",this.onResize),this.printQuery?this.printQuery.addEventListener?
this.printQuery.addEventListener("change",this.onPrint):this.printQuery.addListener(this.onPrint):e.addEventListener("be\
foreprint",this.onPrint),e.addEventListener("scroll",this.onScroll),e.document.addEventListener("selectionchange",this.onSelectionChange)}removeWindowListeners(e){
e.removeEventListener("scroll",this.onScroll),e.removeEventListener("resize",this.onResize),this.printQuery?this.printQuery.
removeEventListener?this.printQuery.removeEventListener("change",this.onPrint):this.printQuery.removeListener(this.onPrint):
e.removeEventListener("beforeprint",this.onPrint),e.document.removeEventListener("selectionchange",this.onSelectionChange)}update(e){
this.editContext&&(this.editContext.update(e),e.startState.facet(Qe)!=e.state.facet(Qe)&&(e.view.contentDOM.editContext=
e.state.facet(Qe)?this.editContext.editContext:null))}destroy(){var e,t,i;this.stop(),(e=this.intersection)===null||e===
void 0||e.disconnect(),(t=this.gapIntersection)===null||t===void 0||t.disconnect(),(i=this.resizeScroll)===null||i===void 0||
i.disconnect();for(let s of this.scrollTargets)s.removeEventListener("scroll",this.onScroll);this.removeWindowListeners(
this.win),clearTimeout(this.parentCheck),clearTimeout(this.resizeTimeout),this.win.cancelAnimationFrame(this.delayedFlush),
this.win.cancelAnimationFrame(this.flushingAndroidKey),this.editContext&&(this.view.contentDOM.editContext=null,this.editContext.
destroy())}};function ea(n,e,t){for(;e;){let i=G.get(e);if(i&&i.parent==n)return i;let s=e.parentNode;e=s!=n.dom?s:t>0?e.
nextSibling:e.previousSibling}return null}function ta(n,e){let t=e.startContainer,i=e.startOffset,s=e.endContainer,r=e.endOffset,
o=n.docView.domAtPos(n.state.selection.main.anchor,1);return vi(o.node,o.offset,s,r)&&([t,i,s,r]=[s,r,t,i]),{anchorNode:t,
anchorOffset:i,focusNode:s,focusOffset:r}}function Wu(n,e){if(e.getComposedRanges){let s=e.getComposedRanges(n.root)[0];
if(s)return ta(n,s)}let t=null;function i(s){s.preventDefault(),s.stopImmediatePropagation(),t=s.getTargetRanges()[0]}return n.
contentDOM.addEventListener("beforeinput",i,!0),n.dom.ownerDocument.execCommand("indent"),n.contentDOM.removeEventListener(
"beforeinput",i,!0),t?ta(n,t):null}var Kr=class{constructor(e){this.from=0,this.to=0,this.pendingContextChange=null,this.
handlers=Object.create(null),this.composing=null,this.resetRange(e.state);let t=this.editContext=new window.EditContext(
{text:e.state.doc.sliceString(this.from,this.to),selectionStart:this.toContextPos(Math.max(this.from,Math.min(this.to,e.
state.selection.main.anchor))),selectionEnd:this.toContextPos(e.state.selection.main.head)});this.handlers.textupdate=i=>{
let s=e.state.selection.main,{anchor:r,head:o}=s,l=this.toEditorPos(i.updateRangeStart),a=this.toEditorPos(i.updateRangeEnd);
e.inputState.composing>=0&&!this.composing&&(this.composing={contextBase:i.updateRangeStart,editorBase:l,drifted:!1});let h=a-
l>i.text.length;l==this.from&&r<this.from?l=r:a==this.to&&r>this.to&&(a=r);let c=Ga(e.state.sliceDoc(l,a),i.text,(h?s.from:
s.to)-l,h?"end":null);if(!c){let u=x.single(this.toEditorPos(i.selectionStart),this.toEditorPos(i.selectionEnd));Tr(u,s)||
e.dispatch({selection:u,userEvent:"select"});return}let f={from:c.from+l,to:c.toA+l,insert:P.of(i.text.slice(c.from,c.toB).
split(`
`))};if((v.mac||v.android)&&f.from==o-1&&/^\. ?$/.test(i.text)&&e.contentDOM.getAttribute("autocorrect")=="off"&&(f={from:l,
to:a,insert:P.of([i.text.replace("."," ")])}),this.pendingContextChange=f,!e.state.readOnly){let u=this.to-this.from+(f.
to-f.from+f.insert.length);no(e,f,x.single(this.toEditorPos(i.selectionStart,u),this.toEditorPos(i.selectionEnd,u)))}this.
pendingContextChange&&(this.revertPending(e.state),this.setSelection(e.state)),f.from<f.to&&!f.insert.length&&e.inputState.
composing>=0&&!/[\\p{Alphabetic}\\p{Number}_]/.test(t.text.slice(Math.max(0,i.updateRangeStart-1),Math.min(t.text.length,
i.updateRangeStart+1)))&&this.handlers.compositionend(i)},this.handlers.characterboundsupdate=i=>{let s=[],r=null;for(let o=this.
toEditorPos(i.rangeStart),l=this.toEditorPos(i.rangeEnd);o<l;o++){let a=e.coordsForChar(o);r=a&&new DOMRect(a.left,a.top,
a.right-a.left,a.bottom-a.top)||r||new DOMRect,s.push(r)}t.updateCharacterBounds(i.rangeStart,s)},this.handlers.textformatupdate=
i=>{let s=[];for(let r of i.getTextFormats()){let o=r.underlineStyle,l=r.underlineThickness;if(!/none/i.test(o)&&!/none/i.
test(l)){let a=this.toEditorPos(r.rangeStart),h=this.toEditorPos(r.rangeEnd);if(a<h){let c=`text-decoration: underline ${/^[a-z]/.
test(o)?o+" ":o=="Dashed"?"dashed ":o=="Squiggle"?"wavy ":""}${/thin/i.test(l)?1:2}px`;s.push(L.mark({attributes:{style:c}}).
range(a,h))}}}e.dispatch({effects:Ia.of(L.set(s))})},this.handlers.compositionstart=()=>{e.inputState.composing<0&&(e.inputState.
composing=0,e.inputState.compositionFirstChange=!0)},this.handlers.compositionend=()=>{if(e.inputState.composing=-1,e.inputState.
compositionFirstChange=null,this.composing){let{drifted:i}=this.composing;this.composing=null,i&&this.reset(e.state)}};for(let i in this.
handlers)t.addEventListener(i,this.handlers[i]);this.measureReq={read:i=>{let s=Ei(i.root);s&&s.rangeCount&&this.editContext.
updateSelectionBounds(s.getRangeAt(0).getBoundingClientRect())}}}applyEdits(e){let t=0,i=!1,s=this.pendingContextChange;
return e.changes.iterChanges((r,o,l,a,h)=>{if(i)return;let c=h.length-(o-r);if(s&&o>=s.to)if(s.from==r&&s.to==o&&s.insert.
eq(h)){s=this.pendingContextChange=null,t+=c,this.to+=c;return}else s=null,this.revertPending(e.state);if(r+=t,o+=t,o<=this.
from)this.from+=c,this.to+=c;else if(r<this.to){if(r<this.from||o>this.to||this.to-this.from+h.length>3e4){i=!0;return}this.
editContext.updateText(this.toContextPos(r),this.toContextPos(o),h.toString()),this.to+=c}t+=c}),s&&!i&&this.revertPending(
e.state),!i}update(e){let t=this.pendingContextChange,i=e.startState.selection.main;this.composing&&(this.composing.drifted||
!e.changes.touchesRange(i.from,i.to)&&e.transactions.some(s=>!s.isUserEvent("input.type")&&s.changes.touchesRange(this.from,
this.to)))?(this.composing.drifted=!0,this.composing.editorBase=e.changes.mapPos(this.composing.editorBase)):!this.applyEdits(
e)||!this.rangeIsValid(e.state)?(this.pendingContextChange=null,this.reset(e.state)):(e.docChanged||e.selectionSet||t)&&
this.setSelection(e.state),(e.geometryChanged||e.docChanged||e.selectionSet)&&e.view.requestMeasure(this.measureReq)}resetRange(e){
let{head:t}=e.selection.main;this.from=Math.max(0,t-1e4),this.to=Math.min(e.doc.length,t+1e4)}reset(e){this.resetRange(e),
this.editContext.updateText(0,this.editContext.text.length,e.doc.sliceString(this.from,this.to)),this.setSelection(e)}revertPending(e){
let t=this.pendingContextChange;this.pendingContextChange=null,this.editContext.updateText(this.toContextPos(t.from),this.
toContextPos(t.from+t.insert.length),e.doc.sliceString(t.from,t.to))}setSelection(e){let{main:t}=e.selection,i=this.toContextPos(
Math.max(this.from,Math.min(this.to,t.anchor))),s=this.toContextPos(t.head);(this.editContext.selectionStart!=i||this.editContext.
selectionEnd!=s)&&this.editContext.updateSelection(i,s)}rangeIsValid(e){let{head:t}=e.selection.main;return!(this.from>0&&
t-this.from<500||this.to<e.doc.length&&this.to-t<500||this.to-this.from>1e4*3)}toEditorPos(e,t=this.to-this.from){e=Math.
min(e,t);let i=this.composing;return i&&i.drifted?i.editorBase+(e-i.contextBase):e+this.from}toContextPos(e){let t=this.
composing;return t&&t.drifted?t.contextBase+(e-t.editorBase):e-this.from}destroy(){for(let e in this.handlers)this.editContext.
removeEventListener(e,this.handlers[e])}},M=class n{get state(){return this.viewState.state}get viewport(){return this.viewState.
viewport}get visibleRanges(){return this.viewState.visibleRanges}get inView(){return this.viewState.inView}get composing(){
return!!this.inputState&&this.inputState.composing>0}get compositionStarted(){return!!this.inputState&&this.inputState.composing>=
0}get root(){return this._root}get win(){return this.dom.ownerDocument.defaultView||window}constructor(e={}){var t;this.
plugins=[],this.pluginMap=new Map,this.editorAttrs={},this.contentAttrs={},this.bidiCache=[],this.destroyed=!1,this.updateState=
2,this.measureScheduled=-1,this.measureRequests=[],this.clearAnnouncement=-1,this.contentDOM=document.createElement("div"),
this.scrollDOM=document.createElement("div"),this.scrollDOM.tabIndex=-1,this.scrollDOM.className="cm-scroller",this.scrollDOM.
appendChild(this.contentDOM),this.announceDOM=document.createElement("div"),this.announceDOM.className="cm-announced",this.
announceDOM.setAttribute("aria-live","polite"),this.dom=document.createElement("div"),this.dom.appendChild(this.announceDOM),
this.dom.appendChild(this.scrollDOM),e.parent&&e.parent.appendChild(this.dom);let{dispatch:i}=e;this.dispatchTransactions=
e.dispatchTransactions||i&&(s=>s.forEach(r=>i(r,this)))||(s=>this.update(s)),this.dispatch=this.dispatch.bind(this),this.
_root=e.root||Bf(e.parent)||document,this.viewState=new Hn(this,e.state||V.create(e)),e.scrollTo&&e.scrollTo.is(gn)&&(this.
viewState.scrollTarget=e.scrollTo.value.clip(this.viewState.state)),this.plugins=this.state.facet(Gt).map(s=>new Ci(s));
for(let s of this.plugins)s.update(this);this.observer=new qr(this),this.inputState=new Dr(this),this.inputState.ensureHandlers(
this.plugins),this.docView=new Pn(this),this.mountStyles(),this.updateAttrs(),this.updateState=0,this.requestMeasure(),!((t=
document.fonts)===null||t===void 0)&&t.ready&&document.fonts.ready.then(()=>{this.viewState.mustMeasureContent="refresh",
this.requestMeasure()})}dispatch(...e){let t=e.length==1&&e[0]instanceof X?e:e.length==1&&Array.isArray(e[0])?e[0]:[this.
state.update(...e)];this.dispatchTransactions(t,this)}update(e){if(this.updateState!=0)throw new Error("Calls to EditorV\
iew.update are not allowed while an update is in progress");let t=!1,i=!1,s,r=this.state;for(let u of e){if(u.startState!=
r)throw new RangeError("Trying to update state with a transaction that doesn't start from the previous state.");r=u.state}
if(this.destroyed){this.viewState.state=r;return}let o=this.hasFocus,l=0,a=null;e.some(u=>u.annotation(Qa))?(this.inputState.
notifiedFocused=o,l=1):o!=this.inputState.notifiedFocused&&(this.inputState.notifiedFocused=o,a=Za(r,o),a||(l=1));let h=this.
observer.delayedAndroidKey,c=null;if(h?(this.observer.clearDelayedAndroidKey(),c=this.observer.readChange(),(c&&!this.state.
doc.eq(r.doc)||!this.state.selection.eq(r.selection))&&(c=null)):this.observer.clear(),r.facet(V.phrases)!=this.state.facet(
V.phrases))return this.setState(r);s=En.create(this,r,e),s.flags|=l;let f=this.viewState.scrollTarget;try{this.updateState=
2;for(let u of e){if(f&&(f=f.map(u.changes)),u.scrollIntoView){let{main:d}=u.state.selection,{x:p,y:g}=this.state.facet(
n.cursorScrollMargin);f=new Si(d.empty?d:x.cursor(d.head,d.head>d.anchor?-1:1),"nearest","nearest",g,p)}for(let d of u.effects)
d.is(gn)&&(f=d.value.clip(this.state))}this.viewState.update(s,f),this.bidiCache=Wn.update(this.bidiCache,s.changes),s.empty||
(this.updatePlugins(s),this.inputState.update(s)),t=this.docView.update(s),this.state.facet(xi)!=this.styleModules&&this.
mountStyles(),i=this.updateAttrs(),this.showAnnouncements(e),this.docView.updateSelection(t,e.some(u=>u.isUserEvent("sel\
ect.pointer")))}finally{this.updateState=0}if(s.startState.facet(wn)!=s.state.facet(wn)&&(this.viewState.mustMeasureContent=
!0),(t||i||f||this.viewState.mustEnforceCursorAssoc||this.viewState.mustMeasureContent)&&this.requestMeasure(),t&&this.docViewUpdate(),
!s.empty)for(let u of this.state.facet(pr))try{u(s)}catch(d){ge(this.state,d,"update listener")}(a||c)&&Promise.resolve().
then(()=>{a&&this.state==a.startState&&this.dispatch(a),c&&!ja(this,c)&&h.force&&Jt(this.contentDOM,h.key,h.keyCode)})}setState(e){
if(this.updateState!=0)throw new Error("Calls to EditorView.setState are not allowed while an update is in progress");if(this.
destroyed){this.viewState.state=e;return}this.updateState=2;let t=this.hasFocus;try{for(let i of this.plugins)i.destroy(
this);this.viewState=new Hn(this,e),this.plugins=e.facet(Gt).map(i=>new Ci(i)),this.pluginMap.clear();for(let i of this.
plugins)i.update(this);this.docView.destroy(),this.docView=new Pn(this),this.inputState.ensureHandlers(this.plugins),this.
mountStyles(),this.updateAttrs(),this.bidiCache=[]}finally{this.updateState=0}t&&this.focus(),this.requestMeasure()}updatePlugins(e){
let t=e.startState.facet(Gt),i=e.state.facet(Gt);if(t!=i){let s=[];for(let r of i){let o=t.indexOf(r);if(o<0)s.push(new Ci(
r));else{let l=this.plugins[o];l.mustUpdate=e,s.push(l)}}for(let r of this.plugins)r.mustUpdate!=e&&r.destroy(this);this.
plugins=s,this.pluginMap.clear()}else for(let s of this.plugins)s.mustUpdate=e;for(let s=0;s<this.plugins.length;s++)this.
plugins[s].update(this);t!=i&&this.inputState.ensureHandlers(this.plugins)}docViewUpdate(){for(let e of this.plugins){let t=e.
value;if(t&&t.docViewUpdate)try{t.docViewUpdate(this)}catch(i){ge(this.state,i,"doc view update listener")}}}measure(e=!0){
if(this.destroyed)return;if(this.measureScheduled>-1&&this.win.cancelAnimationFrame(this.measureScheduled),this.observer.
delayedAndroidKey){this.measureScheduled=-1,this.requestMeasure();return}this.measureScheduled=0,e&&this.observer.forceFlush();
let t=null,i=this.viewState.scrollParent,s=this.viewState.getScrollOffset(),{scrollAnchorPos:r,scrollAnchorHeight:o,scaleY:l}=this.
viewState;Math.abs(s-this.viewState.scrollOffset)>1&&(o=-1),this.viewState.scrollAnchorHeight=-1;try{for(let a=0;;a++){if(o<
0){if(xa(i||this.win))r=-1,o=this.viewState.heightMap.height/this.viewState.scaleY;else{let p=this.viewState.scrollAnchorAt(
s);r=p.from,o=p.top}l=this.viewState.scaleY}this.updateState=1;let h=this.viewState.measure();if(!h&&!this.measureRequests.
length&&this.viewState.scrollTarget==null)break;if(a>5){console.warn(this.measureRequests.length?"Measure loop restarted\
 more than 5 times":"Viewport failed to stabilize");break}let c=[];h&4||([this.measureRequests,c]=[c,this.measureRequests]);
let f=c.map(p=>{try{return p.read(this)}catch(g){return ge(this.state,g),ia}}),u=En.create(this,this.state,[]),d=!1;u.flags|=
h,t?t.flags|=h:t=u,this.updateState=2,u.empty||(this.updatePlugins(u),this.inputState.update(u),this.updateAttrs(),d=this.
docView.update(u),d&&this.docViewUpdate());for(let p=0;p<c.length;p++)if(f[p]!=ia)try{let g=c[p];g.write&&g.write(f[p],this)}catch(g){
ge(this.state,g)}if(d&&this.docView.updateSelection(!0),!u.viewportChanged&&this.measureRequests.length==0){if(this.viewState.
editorHeight)if(this.viewState.scrollTarget){this.docView.scrollIntoView(this.viewState.scrollTarget),this.viewState.scrollTarget=
null,o=-1;continue}else{let g=(r<0?this.viewState.heightMap.height:this.viewState.lineBlockAt(r).top)/this.viewState.scaleY-
o/l;if((g>1||g<-1)&&!(v.ios&&this.inputState.lastIOSMomentumScroll>Date.now()-100)&&(i==this.scrollDOM||this.hasFocus||Math.
max(this.inputState.lastWheelEvent,this.inputState.lastTouchTime)>Date.now()-100)){s=s+g,i?r<0?i.scrollTop=i.scrollHeight:
i.scrollTop+=g:this.win.scrollBy(0,g),o=-1;continue}}break}}}finally{this.updateState=0,this.measureScheduled=-1}if(t&&!t.
empty)for(let a of this.state.facet(pr))a(t)}get themeClasses(){return Vr+" "+(this.state.facet(Wr)?ih:th)+" "+this.state.
facet(wn)}updateAttrs(){let e=na(this,Na,{class:"cm-editor"+(this.hasFocus?" cm-focused ":" ")+this.themeClasses}),t={spellcheck:"\
false",autocorrect:"off",autocapitalize:"off",writingsuggestions:"false",translate:"no",contenteditable:this.state.facet(
Qe)?"true":"false",class:"cm-content",style:`${v.tabSize}: ${this.state.tabSize}`,role:"textbox","aria-multiline":"true"};
this.state.readOnly&&(t["aria-readonly"]="true"),na(this,eo,t);let i=this.observer.ignore(()=>{let s=Nl(this.contentDOM,
this.contentAttrs,t),r=Nl(this.dom,this.editorAttrs,e);return s||r});return this.editorAttrs=e,this.contentAttrs=t,i}showAnnouncements(e){
let t=!0;for(let i of e)for(let s of i.effects)if(s.is(n.announce)){t&&(this.announceDOM.textContent="",this.win.clearTimeout(
this.clearAnnouncement),this.clearAnnouncement=this.win.setTimeout(()=>{this.announceDOM.textContent=" "},200),t=!1);let r=this.
announceDOM.appendChild(document.createElement("div"));r.textContent=s.value}}mountStyles(){this.styleModules=this.state.
facet(xi);let e=this.state.facet(n.cspNonce);Se.mount(this.root,this.styleModules.concat(Fu).reverse(),e?{nonce:e}:void 0)}readMeasured(){
if(this.updateState==2)throw new Error("Reading the editor layout isn't allowed during an update");this.updateState==0&&
this.measureScheduled>-1&&this.measure(!1)}requestMeasure(e){if(this.measureScheduled<0&&(this.measureScheduled=this.win.
requestAnimationFrame(()=>this.measure())),e){if(this.measureRequests.indexOf(e)>-1)return;if(e.key!=null){for(let t=0;t<
this.measureRequests.length;t++)if(this.measureRequests[t].key===e.key){this.measureRequests[t]=e;return}}this.measureRequests.
push(e)}}plugin(e){let t=this.pluginMap.get(e);return(t===void 0||t&&t.plugin!=e)&&this.pluginMap.set(e,t=this.plugins.find(
i=>i.plugin==e)||null),t&&t.update(this).value}get documentTop(){return this.contentDOM.getBoundingClientRect().top+this.
viewState.paddingTop}get documentPadding(){return{top:this.viewState.paddingTop,bottom:this.viewState.paddingBottom}}get scaleX(){
return this.viewState.scaleX}get scaleY(){return this.viewState.scaleY}elementAtHeight(e){return this.readMeasured(),this.
viewState.elementAtHeight(e)}lineBlockAtHeight(e){return this.readMeasured(),this.viewState.lineBlockAtHeight(e)}get viewportLineBlocks(){
return this.viewState.viewportLines}lineBlockAt(e){return this.viewState.lineBlockAt(e)}get contentHeight(){return this.
viewState.contentHeight}moveByChar(e,t,i){return tr(this,e,ql(this,e,t,i))}moveByGroup(e,t){return tr(this,e,ql(this,e,t,
i=>lu(this,e.head,i)))}visualLineSide(e,t){return t?x.cursor(e.to,1):x.cursor(e.from,-1)}moveToLineBoundary(e,t,i=!0){return ou(
this,e,t,i)}moveVertically(e,t,i){return tr(this,e,au(this,e,t,i))}domAtPos(e,t=1){return this.docView.domAtPos(e,t)}posAtDOM(e,t=0){
return this.docView.posFromDOM(e,t)}posAtCoords(e,t=!0){this.readMeasured();let i=Sr(this,e,t);return i&&i.pos}posAndSideAtCoords(e,t=!0){
return this.readMeasured(),Sr(this,e,t)}coordsAtPos(e,t=1){this.readMeasured();let i=this.state.doc.lineAt(e),s=this.bidiSpans(
i),r=s[Me.find(s,e-i.from,-1,t)];return i.length&&(e==i.from&&t<0||e==i.to&&t>0)&&r.dir!=this.textDirectionAt(i.from)&&(e==
i.to?(e=i.from+r.from,t=1):(e=i.from+r.to,t=-1)),this.docView.coordsAt(e,t,r.dir==K.RTL)}coordsForChar(e){return this.readMeasured(),
this.docView.coordsForChar(e)}get defaultCharacterWidth(){return this.viewState.heightOracle.charWidth}get defaultLineHeight(){
return this.viewState.heightOracle.lineHeight}get textDirection(){return this.viewState.defaultTextDirection}textDirectionAt(e){
return!this.state.facet(Ra)||e<this.viewport.from||e>this.viewport.to?this.textDirection:(this.readMeasured(),this.docView.
textDirectionAt(e))}get lineWrapping(){return this.viewState.heightOracle.lineWrapping}bidiSpans(e){if(e.length>Vu)return Aa(
e.length);let t=this.textDirectionAt(e.from),i;for(let r of this.bidiCache)if(r.from==e.from&&r.dir==t&&(r.fresh||Ca(r.isolates,
i=Wl(this,e))))return r.order;i||(i=Wl(this,e));let s=Hf(e.text,t,i);return this.bidiCache.push(new Wn(e.from,e.to,t,i,!0,
s)),s}get hasFocus(){var e;return(this.dom.ownerDocument.hasFocus()||v.safari&&((e=this.inputState)===null||e===void 0?void 0:
e.lastContextMenu)>Date.now()-3e4)&&this.root.activeElement==this.contentDOM}focus(){this.observer.ignore(()=>{ba(this.contentDOM),
this.docView.updateSelection()})}setRoot(e){this._root!=e&&(this._root=e,this.observer.setWindow((e.nodeType==9?e:e.ownerDocument).
defaultView||window),this.mountStyles())}destroy(){this.root.activeElement==this.contentDOM&&this.contentDOM.blur();for(let e of this.
plugins)e.destroy(this);this.plugins=[],this.inputState.destroy(),this.docView.destroy(),this.dom.remove(),this.observer.
destroy(),this.win.clearTimeout(this.clearAnnouncement),this.measureScheduled>-1&&this.win.cancelAnimationFrame(this.measureScheduled),
this.destroyed=!0}static scrollIntoView(e,t={}){var i,s,r,o;return gn.of(new Si(typeof e=="number"?x.cursor(e):e,(i=t.y)!==
null&&i!==void 0?i:"nearest",(s=t.x)!==null&&s!==void 0?s:"nearest",(r=t.yMargin)!==null&&r!==void 0?r:5,(o=t.xMargin)!==
null&&o!==void 0?o:5))}scrollSnapshot(){let{scrollTop:e,scrollLeft:t}=this.scrollDOM,i=this.viewState.scrollAnchorAt(e);
return gn.of(new Si(x.cursor(i.from),"start","start",i.top-e,t,!0))}setTabFocusMode(e){e==null?this.inputState.tabFocusMode=
this.inputState.tabFocusMode<0?0:-1:typeof e=="boolean"?this.inputState.tabFocusMode=e?0:-1:this.inputState.tabFocusMode!=
0&&(this.inputState.tabFocusMode=Date.now()+e)}static domEventHandlers(e){return se.define(()=>({}),{eventHandlers:e})}static domEventObservers(e){
return se.define(()=>({}),{eventObservers:e})}static theme(e,t){let i=Se.newName(),s=[wn.of(i),xi.of(zr(`.${i}`,e))];return t&&
t.dark&&s.push(Wr.of(!0)),s}static baseTheme(e){return nt.lowest(xi.of(zr("."+Vr,e,nh)))}static findFromDOM(e){var t;let i=e.
querySelector(".cm-content"),s=i&&G.get(i)||G.get(e);return((t=s?.root)===null||t===void 0?void 0:t.view)||null}};M.styleModule=
xi;M.inputHandler=La;M.clipboardInputFilter=Qr;M.clipboardOutputFilter=Zr;M.scrollHandler=Pa;M.focusChangeEffect=Ea;M.perLineTextDirection=
Ra;M.exceptionSink=Ba;M.updateListener=pr;M.editable=Qe;M.mouseSelectionStyle=Oa;M.dragMovesSelection=Da;M.clickAddsSelectionRange=
Ta;M.decorations=Gn;M.blockWrappers=Fa;M.outerDecorations=to;M.atomicRanges=Pi;M.bidiIsolatedRanges=Ha;M.cursorScrollMargin=
C.define({combine:n=>{let e=5,t=5;for(let i of n)typeof i=="number"?e=t=i:{x:e,y:t}=i;return{x:e,y:t}}});M.scrollMargins=
Va;M.darkTheme=Wr;M.cspNonce=C.define({combine:n=>n.length?n[0]:""});M.contentAttributes=eo;M.editorAttributes=Na;M.lineWrapping=
M.contentAttributes.of({class:"cm-lineWrapping"});M.announce=R.define();var Vu=4096,ia={},Wn=class n{constructor(e,t,i,s,r,o){
this.from=e,this.to=t,this.dir=i,this.isolates=s,this.fresh=r,this.order=o}static update(e,t){if(t.empty&&!e.some(r=>r.fresh))
return e;let i=[],s=e.length?e[e.length-1].dir:K.LTR;for(let r=Math.max(0,e.length-10);r<e.length;r++){let o=e[r];o.dir==
s&&!t.touchesRange(o.from,o.to)&&i.push(new n(t.mapPos(o.from,1),t.mapPos(o.to,-1),o.dir,o.isolates,!1,o.order))}return i}};
function na(n,e,t){for(let i=n.state.facet(e),s=i.length-1;s>=0;s--){let r=i[s],o=typeof r=="function"?r(n):r;o&&Yr(o,t)}
return t}var zu=v.mac?"mac":v.windows?"win":v.linux?"linux":"key";function qu(n,e){let t=n.split(/-(?!$)/),i=t[t.length-
1];i=="Space"&&(i=" ");let s,r,o,l;for(let a=0;a<t.length-1;++a){let h=t[a];if(/^(cmd|meta|m)$/i.test(h))l=!0;else if(/^a(lt)?$/i.
test(h))s=!0;else if(/^(c|ctrl|control)$/i.test(h))r=!0;else if(/^s(hift)?$/i.test(h))o=!0;else if(/^mod$/i.test(h))e=="\
mac"?l=!0:r=!0;else throw new Error("Unrecognized modifier name: "+h)}return s&&(i="Alt-"+i),r&&(i="Ctrl-"+i),l&&(i="Met\
a-"+i),o&&(i="Shift-"+i),i}function kn(n,e,t){return e.altKey&&(n="Alt-"+n),e.ctrlKey&&(n="Ctrl-"+n),e.metaKey&&(n="Meta\
-"+n),t!==!1&&e.shiftKey&&(n="Shift-"+n),n}var Ku=nt.default(M.domEventHandlers({keydown(n,e){return oh(sh(e.state),n,e,
"editor")}})),so=C.define({enables:Ku}),sa=new WeakMap;function sh(n){let e=n.facet(so),t=sa.get(e);return t||sa.set(e,t=
ju(e.reduce((i,s)=>i.concat(s),[]))),t}function rh(n,e,t){return oh(sh(n.state),e,n,t)}var st=null,$u=4e3;function ju(n,e=zu){
let t=Object.create(null),i=Object.create(null),s=(o,l)=>{let a=i[o];if(a==null)i[o]=l;else if(a!=l)throw new Error("Key\
 binding "+o+" is used both as a regular binding and as a multi-stroke prefix")},r=(o,l,a,h,c)=>{var f,u;let d=t[o]||(t[o]=
Object.create(null)),p=l.split(/ (?!$)/).map(y=>qu(y,e));for(let y=1;y<p.length;y++){let A=p.slice(0,y).join(" ");s(A,!0),
d[A]||(d[A]={preventDefault:!0,stopPropagation:!1,run:[b=>{let T=st={view:b,prefix:A,scope:o};return setTimeout(()=>{st==
T&&(st=null)},$u),!0}]})}let g=p.join(" ");s(g,!1);let m=d[g]||(d[g]={preventDefault:!1,stopPropagation:!1,run:((u=(f=d.
_any)===null||f===void 0?void 0:f.run)===null||u===void 0?void 0:u.slice())||[]});a&&m.run.push(a),h&&(m.preventDefault=
!0),c&&(m.stopPropagation=!0)};for(let o of n){let l=o.scope?o.scope.split(" "):["editor"];if(o.any)for(let h of l){let c=t[h]||
(t[h]=Object.create(null));c._any||(c._any={preventDefault:!1,stopPropagation:!1,run:[]});let{any:f}=o;for(let u in c)c[u].
run.push(d=>f(d,$r))}let a=o[e]||o.key;if(a)for(let h of l)r(h,a,o.run,o.preventDefault,o.stopPropagation),o.shift&&r(h,
"Shift-"+a,o.shift,o.preventDefault,o.stopPropagation)}return t}var $r=null;function oh(n,e,t,i){$r=e;let s=Ll(e),r=un(s,
0),o=dn(r)==s.length&&s!=" ",l="",a=!1,h=!1,c=!1;st&&st.view==t&&st.scope==i&&(l=st.prefix+" ",_a.indexOf(e.keyCode)<0&&
(h=!0,st=null));let f=new Set,u=m=>{if(m){for(let y of m.run)if(!f.has(y)&&(f.add(y),y(t)))return m.stopPropagation&&(c=
!0),!0;m.preventDefault&&(m.stopPropagation&&(c=!0),h=!0)}return!1},d=n[i],p,g;return d&&(u(d[l+kn(s,e,!o)])?a=!0:o&&(e.
altKey||e.metaKey||e.ctrlKey)&&!(v.windows&&e.ctrlKey&&e.altKey)&&!(v.mac&&e.altKey&&!(e.ctrlKey||e.metaKey))&&(p=Je[e.keyCode])&&
p!=s?(u(d[l+kn(p,e,!0)])||e.shiftKey&&(g=$t[e.keyCode])!=s&&g!=p&&u(d[l+kn(g,e,!1)]))&&(a=!0):o&&e.shiftKey&&u(d[l+kn(s,
e,!0)])&&(a=!0),!a&&u(d._any)&&(a=!0)),h&&(a=!0),a&&c&&e.stopPropagation(),$r=null,a}var ra=!v.ios;var Gu=v.gecko&&v.gecko_version==153?"#ffffff01":"transparent",Qg=nt.highest(M.theme({".cm-line":{...ra?{"& ::selection,\
 &::selection":{backgroundColor:`${Gu} !important`}}:{},caretColor:"transparent !important"},".cm-content":{caretColor:"\
transparent !important","& :focus":{caretColor:"initial !important",...ra?{"&::selection, & ::selection":{backgroundColor:"\
Highlight !important"}}:{}}}}));var Zg=/x/.unicode!=null?"gu":"g";function lh(){return _u}var Uu=L.line({class:"cm-activeLine"}),_u=se.fromClass(class{constructor(n){this.decorations=this.
getDeco(n)}update(n){(n.docChanged||n.selectionSet)&&(this.decorations=this.getDeco(n.view))}getDeco(n){let e=-1,t=[];for(let i of n.
state.selection.ranges){let s=n.lineBlockAt(i.head);s.from>e&&(t.push(Uu.range(s.from)),e=s.from)}return L.set(t)}},{decorations:n=>n.
decorations});var vn="-10000px",Vn=class{constructor(e,t,i,s){this.facet=t,this.createTooltipView=i,this.removeTooltipView=s,this.input=
e.state.facet(t),this.tooltips=this.input.filter(o=>o);let r=null;this.tooltipViews=this.tooltips.map(o=>r=i(o,r))}update(e,t){
var i;let s=e.state.facet(this.facet),r=s.filter(a=>a);if(s===this.input){for(let a of this.tooltipViews)a.update&&a.update(
e);return!1}let o=[],l=t?[]:null;for(let a=0;a<r.length;a++){let h=r[a],c=-1;if(h){for(let f=0;f<this.tooltips.length;f++){
let u=this.tooltips[f];u&&u.create==h.create&&(c=f)}if(c<0)o[a]=this.createTooltipView(h,a?o[a-1]:null),l&&(l[a]=!!h.above);else{
let f=o[a]=this.tooltipViews[c];l&&(l[a]=t[c]),f.update&&f.update(e)}}}for(let a of this.tooltipViews)o.indexOf(a)<0&&(this.
removeTooltipView(a),(i=a.destroy)===null||i===void 0||i.call(a));return t&&(l.forEach((a,h)=>t[h]=a),t.length=l.length),
this.input=s,this.tooltips=r,this.tooltipViews=o,!0}};function ah(n){let e=n.dom.ownerDocument.documentElement,t=e.clientWidth,i=getComputedStyle(e);if(!/stable/.test(i.scrollbarGutter||
""))return{left:0,right:t};let s=e.getBoundingClientRect(),r=n.win.scrollX;return{left:Math.max(0,s.left+r-parseFloat(i.
marginLeft)),right:Math.min(t,s.right+r+parseFloat(i.marginRight))}}function Yu(n){let{left:e,right:t}=ah(n);return{top:0,
left:e,right:t,bottom:n.dom.ownerDocument.documentElement.clientHeight}}var nr=C.define({combine:n=>{var e,t,i;return{position:v.
ios?"absolute":((e=n.find(s=>s.position))===null||e===void 0?void 0:e.position)||"fixed",parent:((t=n.find(s=>s.parent))===
null||t===void 0?void 0:t.parent)||null,tooltipSpace:((i=n.find(s=>s.tooltipSpace))===null||i===void 0?void 0:i.tooltipSpace)||
Yu}}}),oa=new WeakMap,hh=se.fromClass(class{constructor(n){this.view=n,this.above=[],this.inView=!0,this.madeAbsolute=!1,
this.lastTransaction=0,this.measureTimeout=-1;let e=n.state.facet(nr);this.position=e.position,this.parent=e.parent,this.
classes=n.themeClasses,this.createContainer(),this.measureReq={read:this.readMeasure.bind(this),write:this.writeMeasure.
bind(this),key:this},this.resizeObserver=typeof ResizeObserver=="function"?new ResizeObserver(()=>this.measureSoon()):null,
this.manager=new Vn(n,_n,(t,i)=>this.createTooltip(t,i),t=>{this.resizeObserver&&this.resizeObserver.unobserve(t.dom),t.
dom.remove()}),this.above=this.manager.tooltips.map(t=>!!t.above),this.intersectionObserver=typeof IntersectionObserver==
"function"?new IntersectionObserver(t=>{Date.now()>this.lastTransaction-50&&t.length>0&&t[t.length-1].intersectionRatio<
1&&this.measureSoon()},{threshold:[1]}):null,this.observeIntersection(),n.win.addEventListener("resize",this.measureSoon=
this.measureSoon.bind(this)),this.maybeMeasure()}createContainer(){this.parent?(this.container=document.createElement("d\
iv"),this.container.style.position="relative",this.container.className=this.view.themeClasses,this.parent.appendChild(this.
container)):this.container=this.view.dom}observeIntersection(){if(this.intersectionObserver){this.intersectionObserver.disconnect();
for(let n of this.manager.tooltipViews)this.intersectionObserver.observe(n.dom)}}measureSoon(){this.measureTimeout<0&&(this.
measureTimeout=setTimeout(()=>{this.measureTimeout=-1,this.maybeMeasure()},50))}update(n){n.transactions.length&&(this.lastTransaction=
Date.now());let e=this.manager.update(n,this.above);e&&this.observeIntersection();let t=e||n.geometryChanged,i=n.state.facet(
nr);if(i.position!=this.position&&!this.madeAbsolute){this.position=i.position;for(let s of this.manager.tooltipViews)s.
dom.style.position=this.position;t=!0}if(i.parent!=this.parent){this.parent&&this.container.remove(),this.parent=i.parent,
this.createContainer();for(let s of this.manager.tooltipViews)this.container.appendChild(s.dom);t=!0}else this.parent&&this.
view.themeClasses!=this.classes&&(this.classes=this.container.className=this.view.themeClasses);t&&this.maybeMeasure()}createTooltip(n,e){
let t=n.create(this.view),i=e?e.dom:null;if(t.dom.classList.add("cm-tooltip"),n.arrow&&!t.dom.querySelector(".cm-tooltip\
 > .cm-tooltip-arrow")){let s=document.createElement("div");s.className="cm-tooltip-arrow",t.dom.appendChild(s)}return t.
dom.style.position=this.position,t.dom.style.top=vn,t.dom.style.left="0px",this.container.insertBefore(t.dom,i),t.mount&&
t.mount(this.view),this.resizeObserver&&this.resizeObserver.observe(t.dom),t}destroy(){var n,e,t;this.view.win.removeEventListener(
"resize",this.measureSoon);for(let i of this.manager.tooltipViews)i.dom.remove(),(n=i.destroy)===null||n===void 0||n.call(
i);this.parent&&this.container.remove(),(e=this.resizeObserver)===null||e===void 0||e.disconnect(),(t=this.intersectionObserver)===
null||t===void 0||t.disconnect(),clearTimeout(this.measureTimeout)}readMeasure(){let n=1,e=1,t=!1,i=0;if(this.position==
"fixed"&&this.manager.tooltipViews.length){let{dom:o}=this.manager.tooltipViews[0];if(v.safari){let l=o.getBoundingClientRect();
t=Math.abs(l.top+1e4)>1||Math.abs(l.left)>1}else t=!!o.offsetParent&&o.offsetParent!=this.container.ownerDocument.body}if(t||
this.position=="absolute")if(this.parent){let o=this.parent.getBoundingClientRect();o.width&&o.height&&(n=o.width/this.parent.
offsetWidth,e=o.height/this.parent.offsetHeight)}else({scaleX:n,scaleY:e}=this.view.viewState);else i=ah(this.view).left;
let s=this.view.scrollDOM.getBoundingClientRect(),r=io(this.view);return{visible:{left:s.left+r.left,top:s.top+r.top,right:s.
right-r.right,bottom:s.bottom-r.bottom},parent:this.parent?this.container.getBoundingClientRect():this.view.dom.getBoundingClientRect(),
pos:this.manager.tooltips.map((o,l)=>{let a=this.manager.tooltipViews[l];return a.getCoords?a.getCoords(o.pos):this.view.
coordsAtPos(o.pos)}),size:this.manager.tooltipViews.map(({dom:o})=>o.getBoundingClientRect()),space:this.view.state.facet(
nr).tooltipSpace(this.view),scaleX:n,scaleY:e,makeAbsolute:t,fixedLeft:i}}writeMeasure(n){var e;if(n.makeAbsolute){this.
madeAbsolute=!0,this.position="absolute";for(let l of this.manager.tooltipViews)l.dom.style.position="absolute"}let{visible:t,
space:i,scaleX:s,scaleY:r}=n,o=[];for(let l=0;l<this.manager.tooltips.length;l++){let a=this.manager.tooltips[l],h=this.
manager.tooltipViews[l],{dom:c}=h,f=n.pos[l],u=n.size[l];if(!f||a.clip!==!1&&(f.bottom<=Math.max(t.top,i.top)||f.top>=Math.
min(t.bottom,i.bottom)||f.right<Math.max(t.left,i.left)-.1||f.left>Math.min(t.right,i.right)+.1)){c.style.top=vn;continue}
let d=a.arrow?h.dom.querySelector(".cm-tooltip-arrow"):null,p=d?7:0,g=u.right-u.left,m=(e=oa.get(h))!==null&&e!==void 0?
e:u.bottom-u.top,y=h.offset||Ju,A=this.view.textDirection==K.LTR,b=u.width>i.right-i.left?A?i.left:i.right-u.width:A?Math.
max(i.left,Math.min(f.left-(d?14:0)+y.x,i.right-g)):Math.min(Math.max(i.left,f.left-g+(d?14:0)-y.x),i.right-g),T=this.above[l];
!a.strictSide&&(T?f.top-m-p-y.y<i.top:f.bottom+m+p+y.y>i.bottom)&&T==i.bottom-f.bottom>f.top-i.top&&(T=this.above[l]=!T);
let S=(T?f.top-i.top:i.bottom-f.bottom)-p;if(S<m&&h.resize!==!1){if(S<this.view.defaultLineHeight){c.style.top=vn;continue}
oa.set(h,m),c.style.height=(m=S)/r+"px"}else c.style.height&&(c.style.height="");let D=T?f.top-m-p-y.y:f.bottom+p+y.y,O=b+
g;if(h.overlap!==!0)for(let N of o)N.left<O&&N.right>b&&N.top<D+m&&N.bottom>D&&(D=T?N.top-m-2-p:N.bottom+p+2);if(this.position==
"absolute"?(c.style.top=(D-n.parent.top)/r+"px",la(c,(b-n.parent.left)/s)):(c.style.top=D/r+"px",la(c,(b-n.fixedLeft)/s)),
d){let N=f.left+(A?y.x:-y.x)-(b+14-7);d.style.left=N/s+"px"}h.overlap!==!0&&o.push({left:b,top:D,right:O,bottom:D+m}),c.
classList.toggle("cm-tooltip-above",T),c.classList.toggle("cm-tooltip-below",!T),h.positioned&&h.positioned(n.space)}}maybeMeasure(){
if(this.manager.tooltips.length&&(this.view.inView&&this.view.requestMeasure(this.measureReq),this.inView!=this.view.inView&&
(this.inView=this.view.inView,!this.inView)))for(let n of this.manager.tooltipViews)n.dom.style.top=vn}},{eventObservers:{
scroll(){this.maybeMeasure()}}});function la(n,e){let t=parseInt(n.style.left,10);(isNaN(t)||Math.abs(e-t)>1)&&(n.style.
left=e+"px")}var Xu=M.baseTheme({".cm-tooltip":{zIndex:500,boxSizing:"border-box"},"&light .cm-tooltip":{border:"1px sol\
id #bbb",backgroundColor:"#f5f5f5"},"&light .cm-tooltip-section:not(:first-child)":{borderTop:"1px solid #bbb"},"&dark .\
cm-tooltip":{backgroundColor:"#333338",color:"white"},".cm-tooltip-arrow":{height:"7px",width:"14px",position:"absolute",
zIndex:-1,overflow:"hidden","&:before, &:after":{content:"''",position:"absolute",width:0,height:0,borderLeft:"7px solid\
 transparent",borderRight:"7px solid transparent"},".cm-tooltip-above &":{bottom:"-7px","&:before":{borderTop:"7px solid\
 #bbb"},"&:after":{borderTop:"7px solid #f5f5f5",bottom:"1px"}},".cm-tooltip-below &":{top:"-7px","&:before":{borderBottom:"\
7px solid #bbb"},"&:after":{borderBottom:"7px solid #f5f5f5",top:"1px"}}},"&dark .cm-tooltip .cm-tooltip-arrow":{"&:befo\
re":{borderTopColor:"#333338",borderBottomColor:"#333338"},"&:after":{borderTopColor:"transparent",borderBottomColor:"tr\
ansparent"}}}),Ju={x:0,y:0},_n=C.define({enables:[hh,Xu]}),zn=C.define({combine:n=>n.reduce((e,t)=>e.concat(t),[])}),qn=class n{static create(e){
return new n(e)}constructor(e){this.view=e,this.mounted=!1,this.dom=document.createElement("div"),this.dom.classList.add(
"cm-tooltip-hover"),this.manager=new Vn(e,zn,(t,i)=>this.createHostedView(t,i),t=>t.dom.remove())}createHostedView(e,t){
let i=e.create(this.view);return i.dom.classList.add("cm-tooltip-section"),this.dom.insertBefore(i.dom,t?t.dom.nextSibling:
this.dom.firstChild),this.mounted&&i.mount&&i.mount(this.view),i}mount(e){for(let t of this.manager.tooltipViews)t.mount&&
t.mount(e);this.mounted=!0}positioned(e){for(let t of this.manager.tooltipViews)t.positioned&&t.positioned(e)}update(e){
this.manager.update(e)}destroy(){var e;for(let t of this.manager.tooltipViews)(e=t.destroy)===null||e===void 0||e.call(t)}passProp(e){
let t;for(let i of this.manager.tooltipViews){let s=i[e];if(s!==void 0){if(t===void 0)t=s;else if(t!==s)return}}return t}get offset(){
return this.passProp("offset")}get getCoords(){return this.passProp("getCoords")}get overlap(){return this.passProp("ove\
rlap")}get resize(){return this.passProp("resize")}},Qu=_n.compute([zn],n=>{let e=n.facet(zn);return e.length===0?null:{
pos:Math.min(...e.map(t=>t.pos)),end:Math.max(...e.map(t=>{var i;return(i=t.end)!==null&&i!==void 0?i:t.pos})),create:qn.
create,above:e[0].above,arrow:e.some(t=>t.arrow)}}),ch=C.define(),jr=class{constructor(e,t,i,s,r,o){this.view=e,this.source=
t,this.field=i,this.locked=s,this.setHover=r,this.hoverTime=o,this.hoverTimeout=-1,this.restartTimeout=-1,this.pending=null,
this.lastMove={x:0,y:0,target:e.dom,time:0},this.checkHover=this.checkHover.bind(this),e.dom.addEventListener("mouseleav\
e",this.mouseleave=this.mouseleave.bind(this)),e.dom.addEventListener("mousemove",this.mousemove=this.mousemove.bind(this))}update(e){
this.pending&&(this.pending=null,clearTimeout(this.restartTimeout),this.restartTimeout=setTimeout(()=>this.startHover(),
20))}get active(){return this.view.state.field(this.field)}checkHover(){if(this.hoverTimeout=-1,this.active.length)return;
let e=Date.now()-this.lastMove.time;e<this.hoverTime?this.hoverTimeout=setTimeout(this.checkHover,this.hoverTime-e):this.
startHover()}startHover(){clearTimeout(this.restartTimeout);let{view:e,lastMove:t}=this,i=e.docView.tile.nearest(t.target);
if(!i)return;let s,r=1;if(i.isWidget())s=i.posAtStart;else{if(s=e.posAtCoords(t),s==null)return;let o=e.coordsAtPos(s);if(!o||
t.y<o.top||t.y>o.bottom||t.x<o.left-e.defaultCharacterWidth||t.x>o.right+e.defaultCharacterWidth)return;let l=e.bidiSpans(
e.state.doc.lineAt(s)).find(h=>h.from<=s&&h.to>=s),a=l&&l.dir==K.RTL?-1:1;r=t.x<o.left?-a:a}this.activateHover(e,s,r)}activateHover(e,t,i,s){
let r=this.source(e,t,i),o=l=>{if(l&&!(Array.isArray(l)&&!l.length)){let a=Array.isArray(l)?l:[l];s&&this.locked.set(a,s),
e.dispatch({effects:this.setHover.of(a)})}};if(r&&"then"in r){let l=this.pending={pos:t};r.then(a=>{this.pending==l&&(this.
pending=null,o(a))},a=>ge(e.state,a,"hover tooltip"))}else o(r)}get tooltip(){let e=this.view.plugin(hh),t=e?e.manager.tooltips.
findIndex(i=>i.create==qn.create):-1;return t>-1?e.manager.tooltipViews[t]:null}mousemove(e){var t,i;this.lastMove={x:e.
clientX,y:e.clientY,target:e.target,time:Date.now()},this.hoverTimeout<0&&(this.hoverTimeout=setTimeout(this.checkHover,
this.hoverTime));let{active:s,tooltip:r}=this;if(s.length&&!this.locked.has(s)&&r&&!Zu(r.dom,e)||this.pending){let{pos:o}=s[0]||
this.pending,l=(i=(t=s[0])===null||t===void 0?void 0:t.end)!==null&&i!==void 0?i:o;(o==l?this.view.posAtCoords(this.lastMove)!=
o:!ed(this.view,o,l,e.clientX,e.clientY))&&(this.view.dispatch({effects:this.setHover.of([])}),this.pending=null)}}mouseleave(e){
clearTimeout(this.hoverTimeout),this.hoverTimeout=-1;let{active:t}=this;if(t.length&&!this.locked.has(t)){let{tooltip:i}=this;
i&&i.dom.contains(e.relatedTarget)?this.watchTooltipLeave(i.dom):this.view.dispatch({effects:this.setHover.of([])})}}watchTooltipLeave(e){
let t=i=>{e.removeEventListener("mouseleave",t);let{active:s}=this;s.length&&!this.locked.has(s)&&!this.view.dom.contains(
i.relatedTarget)&&this.view.dispatch({effects:this.setHover.of([])})};e.addEventListener("mouseleave",t)}destroy(){clearTimeout(
this.hoverTimeout),clearTimeout(this.restartTimeout),this.view.dom.removeEventListener("mouseleave",this.mouseleave),this.
view.dom.removeEventListener("mousemove",this.mousemove)}},Sn=4;function Zu(n,e){let{left:t,right:i,top:s,bottom:r}=n.getBoundingClientRect(),
o;if(o=n.querySelector(".cm-tooltip-arrow")){let l=o.getBoundingClientRect();s=Math.min(l.top,s),r=Math.max(l.bottom,r)}
return e.clientX>=t-Sn&&e.clientX<=i+Sn&&e.clientY>=s-Sn&&e.clientY<=r+Sn}function ed(n,e,t,i,s,r){let o=n.scrollDOM.getBoundingClientRect(),
l=n.documentTop+n.documentPadding.top+n.contentHeight;if(o.left>i||o.right<i||o.top>s||Math.min(o.bottom,l)<s)return!1;let a=n.
posAtCoords({x:i,y:s},!1);return a>=e&&a<=t}function fh(n,e={}){let t=R.define(),i=new WeakMap,s=ee.define({create(){return[]},
update(o,l){let a=i.get(o);if(o.length&&(e.hideOnChange&&(l.docChanged||l.selection)?o=[]:a&&a(l)?o=[]:e.hideOn&&(o=o.filter(
h=>!e.hideOn(l,h)))),l.docChanged&&o.length){let h=[];for(let c of o){let f=l.changes.mapPos(c.pos,-1,le.TrackDel);if(f!=
null){let u=Object.assign(Object.create(null),c);u.pos=f,u.end!=null&&(u.end=l.changes.mapPos(u.end)),h.push(u)}}o=h}for(let h of l.
effects)h.is(t)&&(o=h.value,a=void 0),(h.is(td)&&!h.value||h.value==s)&&(o=[]);return o.length&&a&&i.set(o,a),o},provide:o=>zn.
from(o)}),r=se.define(o=>new jr(o,n,s,i,t,e.hoverTime||300));return{active:s,extension:[s,r,ch.of(r),Qu]}}function uh(n,e,t,i={}){
var s;let r=n.state.facet(ch).map(o=>n.plugin(o)).filter(o=>!!o);if(i.tooltip&&i.tooltip.active){let o=r.find(l=>l.field==
i.tooltip.active);o&&(r=[o])}for(let o of r)o.activateHover(n,e,t,(s=i.until)!==null&&s!==void 0?s:(()=>!1))}var td=R.define();var aa=C.define({combine(n){let e,t;for(let i of n)e=e||i.topContainer,t=t||i.bottomContainer;return{topContainer:e,bottomContainer:t}}});function ri(n,e){let t=n.plugin(dh),i=t?t.specs.indexOf(e):-1;return i>-1?t.panels[i]:null}var dh=se.fromClass(class{constructor(n){
this.input=n.state.facet(Tt),this.specs=this.input.filter(t=>t),this.panels=this.specs.map(t=>t(n));let e=n.state.facet(
aa);this.top=new _t(n,!0,e.topContainer),this.bottom=new _t(n,!1,e.bottomContainer),this.top.sync(this.panels.filter(t=>t.
top)),this.bottom.sync(this.panels.filter(t=>!t.top));for(let t of this.panels)t.dom.classList.add("cm-panel"),t.mount&&
t.mount()}update(n){let e=n.state.facet(aa);this.top.container!=e.topContainer&&(this.top.sync([]),this.top=new _t(n.view,
!0,e.topContainer)),this.bottom.container!=e.bottomContainer&&(this.bottom.sync([]),this.bottom=new _t(n.view,!1,e.bottomContainer)),
this.top.syncClasses(),this.bottom.syncClasses();let t=n.state.facet(Tt);if(t!=this.input){let i=t.filter(a=>a),s=[],r=[],
o=[],l=[];for(let a of i){let h=this.specs.indexOf(a),c;h<0?(c=a(n.view),l.push(c)):(c=this.panels[h],c.update&&c.update(
n)),s.push(c),(c.top?r:o).push(c)}this.specs=i,this.panels=s,this.top.sync(r),this.bottom.sync(o);for(let a of l)a.dom.classList.
add("cm-panel"),a.mount&&a.mount()}else for(let i of this.panels)i.update&&i.update(n)}destroy(){this.top.sync([]),this.
bottom.sync([])}},{provide:n=>M.scrollMargins.of(e=>{let t=e.plugin(n);return t&&{top:t.top.scrollMargin(),bottom:t.bottom.
scrollMargin()}})}),_t=class{constructor(e,t,i){this.view=e,this.top=t,this.container=i,this.dom=void 0,this.classes="",
this.panels=[],this.syncClasses()}sync(e){for(let t of this.panels)t.destroy&&e.indexOf(t)<0&&t.destroy();this.panels=e,
this.syncDOM()}syncDOM(){if(this.panels.length==0){this.dom&&(this.dom.remove(),this.dom=void 0);return}if(!this.dom){this.
dom=document.createElement("div"),this.dom.className=this.top?"cm-panels cm-panels-top":"cm-panels cm-panels-bottom";let t=this.
container||this.view.dom;t.insertBefore(this.dom,this.top?t.firstChild:null)}let e=this.dom.firstChild;for(let t of this.
panels)if(t.dom.parentNode==this.dom){for(;e!=t.dom;)e=ha(e);e=e.nextSibling}else this.dom.insertBefore(t.dom,e);for(;e;)
e=ha(e)}scrollMargin(){return!this.dom||this.container?0:Math.max(0,this.top?this.dom.getBoundingClientRect().bottom-Math.
max(0,this.view.scrollDOM.getBoundingClientRect().top):Math.min(innerHeight,this.view.scrollDOM.getBoundingClientRect().
bottom)-this.dom.getBoundingClientRect().top)}syncClasses(){if(!(!this.container||this.classes==this.view.themeClasses)){
for(let e of this.classes.split(" "))e&&this.container.classList.remove(e);for(let e of(this.classes=this.view.themeClasses).
split(" "))e&&this.container.classList.add(e)}}};function ha(n){let e=n.nextSibling;return n.remove(),e}var Tt=C.define(
{enables:dh});function ph(n,e){let t,i=new Promise(o=>t=o),s=o=>id(o,e,t);n.state.field(Mn,!1)?n.dispatch({effects:mh.of(
s)}):n.dispatch({effects:R.appendConfig.of(Mn.init(()=>[s]))});let r=yh.of(s);return{close:r,result:i.then(o=>((n.win.queueMicrotask||
(a=>n.win.setTimeout(a,10)))(()=>{n.state.field(Mn).indexOf(s)>-1&&n.dispatch({effects:r})}),o))}}function gh(n,e){let t=n.
state.field(Mn,!1)||[];for(let i of t){let s=ri(n,i);if(s&&s.dom.classList.contains(e))return s}return null}var Mn=ee.define(
{create(){return[]},update(n,e){for(let t of e.effects)t.is(mh)?n=[t.value].concat(n):t.is(yh)&&(n=n.filter(i=>i!=t.value));
return n},provide:n=>Tt.computeN([n],e=>e.field(n))}),mh=R.define(),yh=R.define();function id(n,e,t){let i=e.content?e.content(
n,()=>l(null)):null;if(!i){if(i=H("form"),e.input){let a=H("input",e.input);/^(text|password|number|email|tel|url)$/.test(
a.type)&&a.classList.add("cm-textfield"),a.name||(a.name="input"),i.appendChild(H("label",(e.label||"")+": ",a))}else i.
appendChild(document.createTextNode(e.label||""));i.appendChild(document.createTextNode(" ")),i.appendChild(H("button",{
class:"cm-button",type:"submit"},e.submitLabel||"OK"))}let s=i.nodeName=="FORM"?[i]:i.querySelectorAll("form");for(let a=0;a<
s.length;a++){let h=s[a];h.addEventListener("keydown",c=>{c.keyCode==27?(c.preventDefault(),l(null)):c.keyCode==13&&(c.preventDefault(),
l(h))}),h.addEventListener("submit",c=>{c.preventDefault(),l(h)})}let r=H("div",i,H("button",{onclick:()=>l(null),"aria-\
label":n.state.phrase("close"),class:"cm-dialog-close",type:"button"},["×"]));e.class&&(r.className=e.class),r.classList.
add("cm-dialog");let o=typeof e.focus=="string"?i.querySelector(e.focus):e.focus?i.querySelector("input")||i.querySelector(
"button"):null;function l(a){r.contains(r.ownerDocument.activeElement)&&n.focus(),t(a)}return{dom:r,top:e.top,mount:()=>{
o&&("select"in o?o.select():"focus"in o&&o.focus())},destroy:()=>t(null)}}var ye=class extends Ve{compare(e){return this==
e||this.constructor==e.constructor&&this.eq(e)}eq(e){return!1}destroy(e){}};ye.prototype.elementClass="";ye.prototype.toDOM=
void 0;ye.prototype.mapMode=le.TrackBefore;ye.prototype.startSide=ye.prototype.endSide=-1;ye.prototype.point=!0;var Tn=C.
define(),nd=C.define(),sd={class:"",renderEmptyElements:!1,elementStyle:"",markers:()=>F.empty,lineMarker:()=>null,widgetMarker:()=>null,
lineMarkerChange:null,initialSpacer:null,updateSpacer:null,domEventHandlers:{},side:"before"},Di=C.define();function ro(n){
return[bh(),Di.of({...sd,...n})]}var Gr=C.define({combine:n=>n.some(e=>e)});function bh(n){let e=[rd];return n&&n.fixed===
!1&&e.push(Gr.of(!0)),e}var rd=se.fromClass(class{constructor(n){this.view=n,this.domAfter=null,this.prevViewport=n.viewport,
this.dom=document.createElement("div"),this.dom.className="cm-gutters cm-gutters-before",this.dom.setAttribute("aria-hid\
den","true"),this.dom.style.minHeight=this.view.contentHeight/this.view.scaleY+"px",this.gutters=n.state.facet(Di).map(e=>new Kn(
n,e)),this.fixed=!n.state.facet(Gr);for(let e of this.gutters)e.config.side=="after"?this.getDOMAfter().appendChild(e.dom):
this.dom.appendChild(e.dom);this.fixed&&(this.dom.style.position="sticky"),this.syncGutters(!1),n.scrollDOM.insertBefore(
this.dom,n.contentDOM)}getDOMAfter(){return this.domAfter||(this.domAfter=document.createElement("div"),this.domAfter.className=
"cm-gutters cm-gutters-after",this.domAfter.setAttribute("aria-hidden","true"),this.domAfter.style.minHeight=this.view.contentHeight/
this.view.scaleY+"px",this.domAfter.style.position=this.fixed?"sticky":"",this.view.scrollDOM.appendChild(this.domAfter)),
this.domAfter}update(n){if(this.updateGutters(n)){let e=this.prevViewport,t=n.view.viewport,i=Math.min(e.to,t.to)-Math.max(
e.from,t.from);this.syncGutters(i<(t.to-t.from)*.8)}if(n.geometryChanged){let e=this.view.contentHeight/this.view.scaleY+
"px";this.dom.style.minHeight=e,this.domAfter&&(this.domAfter.style.minHeight=e)}this.view.state.facet(Gr)!=!this.fixed&&
(this.fixed=!this.fixed,this.dom.style.position=this.fixed?"sticky":"",this.domAfter&&(this.domAfter.style.position=this.
fixed?"sticky":"")),this.prevViewport=n.view.viewport}syncGutters(n){let e=this.dom.nextSibling;n&&(this.dom.remove(),this.
domAfter&&this.domAfter.remove());let t=F.iter(this.view.state.facet(Tn),this.view.viewport.from),i=[],s=this.gutters.map(
r=>new _r(r,this.view.viewport,-this.view.documentPadding.top));for(let r of this.view.viewportLineBlocks)if(i.length&&(i=
[]),Array.isArray(r.type)){let o=!0;for(let l of r.type)if(l.type==de.Text&&o){Ur(t,i,l.from);for(let a of s)a.line(this.
view,l,i);o=!1}else if(l.widget)for(let a of s)a.widget(this.view,l)}else if(r.type==de.Text){Ur(t,i,r.from);for(let o of s)
o.line(this.view,r,i)}else if(r.widget)for(let o of s)o.widget(this.view,r);for(let r of s)r.finish();n&&(this.view.scrollDOM.
insertBefore(this.dom,e),this.domAfter&&this.view.scrollDOM.appendChild(this.domAfter))}updateGutters(n){let e=n.startState.
facet(Di),t=n.state.facet(Di),i=n.docChanged||n.heightChanged||n.viewportChanged||!F.eq(n.startState.facet(Tn),n.state.facet(
Tn),n.view.viewport.from,n.view.viewport.to);if(e==t)for(let s of this.gutters)s.update(n)&&(i=!0);else{i=!0;let s=[];for(let r of t){
let o=e.indexOf(r);o<0?s.push(new Kn(this.view,r)):(this.gutters[o].update(n),s.push(this.gutters[o]))}for(let r of this.
gutters)r.dom.remove(),s.indexOf(r)<0&&r.destroy();for(let r of s)r.config.side=="after"?this.getDOMAfter().appendChild(
r.dom):this.dom.appendChild(r.dom);this.gutters=s}return i}destroy(){for(let n of this.gutters)n.destroy();this.dom.remove(),
this.domAfter&&this.domAfter.remove()}},{provide:n=>M.scrollMargins.of(e=>{let t=e.plugin(n);if(!t||t.gutters.length==0||
!t.fixed)return null;let i=t.dom.offsetWidth*e.scaleX,s=t.domAfter?t.domAfter.offsetWidth*e.scaleX:0;return e.textDirection==
K.LTR?{left:i,right:s}:{right:i,left:s}})});function ca(n){return Array.isArray(n)?n:[n]}function Ur(n,e,t){for(;n.value&&
n.from<=t;)n.from==t&&e.push(n.value),n.next()}var _r=class{constructor(e,t,i){this.gutter=e,this.height=i,this.i=0,this.
cursor=F.iter(e.markers,t.from)}addElement(e,t,i){let{gutter:s}=this,r=(t.top-this.height)/e.scaleY,o=t.height/e.scaleY;
if(this.i==s.elements.length){let l=new $n(e,o,r,i);s.elements.push(l),s.dom.appendChild(l.dom)}else s.elements[this.i].
update(e,o,r,i);this.height=t.bottom,this.i++}line(e,t,i){let s=[];Ur(this.cursor,s,t.from),i.length&&(s=s.concat(i));let r=this.
gutter.config.lineMarker(e,t,s);r&&s.unshift(r);let o=this.gutter;s.length==0&&!o.config.renderEmptyElements||this.addElement(
e,t,s)}widget(e,t){let i=this.gutter.config.widgetMarker(e,t.widget,t),s=i?[i]:null;for(let r of e.state.facet(nd)){let o=r(
e,t.widget,t);o&&(s||(s=[])).push(o)}s&&this.addElement(e,t,s)}finish(){let e=this.gutter;for(;e.elements.length>this.i;){
let t=e.elements.pop();e.dom.removeChild(t.dom),t.destroy()}}},Kn=class{constructor(e,t){this.view=e,this.config=t,this.
elements=[],this.spacer=null,this.dom=document.createElement("div"),this.dom.className="cm-gutter"+(this.config.class?" "+
this.config.class:"");for(let i in t.domEventHandlers)this.dom.addEventListener(i,s=>{let r=s.target,o;if(r!=this.dom&&this.
dom.contains(r)){for(;r.parentNode!=this.dom;)r=r.parentNode;let a=r.getBoundingClientRect();o=(a.top+a.bottom)/2}else o=
s.clientY;let l=e.lineBlockAtHeight(o-e.documentTop);t.domEventHandlers[i](e,l,s)&&s.preventDefault()});this.markers=ca(
t.markers(e)),t.initialSpacer&&(this.spacer=new $n(e,0,0,[t.initialSpacer(e)]),this.dom.appendChild(this.spacer.dom),this.
spacer.dom.style.cssText+="visibility: hidden; pointer-events: none")}update(e){let t=this.markers;if(this.markers=ca(this.
config.markers(e.view)),this.spacer&&this.config.updateSpacer){let s=this.config.updateSpacer(this.spacer.markers[0],e);
s!=this.spacer.markers[0]&&this.spacer.update(e.view,0,0,[s])}let i=e.view.viewport;return!F.eq(this.markers,t,i.from,i.
to)||(this.config.lineMarkerChange?this.config.lineMarkerChange(e):!1)}destroy(){for(let e of this.elements)e.destroy()}},
$n=class{constructor(e,t,i,s){this.height=-1,this.above=0,this.markers=[],this.dom=document.createElement("div"),this.dom.
className="cm-gutterElement",this.update(e,t,i,s)}update(e,t,i,s){this.height!=t&&(this.height=t,this.dom.style.height=t+
"px"),this.above!=i&&(this.dom.style.marginTop=(this.above=i)?i+"px":""),od(this.markers,s)||this.setMarkers(e,s)}setMarkers(e,t){
let i="cm-gutterElement",s=this.dom.firstChild;for(let r=0,o=0;;){let l=o,a=r<t.length?t[r++]:null,h=!1;if(a){let c=a.elementClass;
c&&(i+=" "+c);for(let f=o;f<this.markers.length;f++)if(this.markers[f].compare(a)){l=f,h=!0;break}}else l=this.markers.length;
for(;o<l;){let c=this.markers[o++];if(c.toDOM){c.destroy(s);let f=s.nextSibling;s.remove(),s=f}}if(!a)break;a.toDOM&&(h?
s=s.nextSibling:this.dom.insertBefore(a.toDOM(e),s)),h&&o++}this.dom.className=i,this.markers=t}destroy(){this.setMarkers(
null,[])}};function od(n,e){if(n.length!=e.length)return!1;for(let t=0;t<n.length;t++)if(!n[t].compare(e[t]))return!1;return!0}
var ld=C.define(),ad=C.define(),Yt=C.define({combine(n){return Be(n,{formatNumber:String,domEventHandlers:{}},{domEventHandlers(e,t){
let i=Object.assign({},e);for(let s in t){let r=i[s],o=t[s];i[s]=r?(l,a,h)=>r(l,a,h)||o(l,a,h):o}return i}})}}),Oi=class extends ye{constructor(e){
super(),this.number=e}eq(e){return this.number==e.number}toDOM(){return document.createTextNode(this.number)}};function sr(n,e){
return n.state.facet(Yt).formatNumber(e,n.state)}var hd=Di.compute([Yt],n=>({class:"cm-lineNumbers",renderEmptyElements:!1,
markers(e){return e.state.facet(ld)},lineMarker(e,t,i){return i.some(s=>s.toDOM)?null:new Oi(sr(e,e.state.doc.lineAt(t.from).
number))},widgetMarker:(e,t,i)=>{for(let s of e.state.facet(ad)){let r=s(e,t,i);if(r)return r}return null},lineMarkerChange:e=>e.
startState.facet(Yt)!=e.state.facet(Yt),initialSpacer(e){return new Oi(sr(e,fa(e.state.doc.lines)))},updateSpacer(e,t){let i=sr(
t.view,fa(t.view.state.doc.lines));return i==e.number?e:new Oi(i)},domEventHandlers:n.facet(Yt).domEventHandlers,side:"b\
efore"}));function xh(n={}){return[Yt.of(n),bh(),hd]}function fa(n){let e=9;for(;e<n;)e=e*10+9;return e}var cd=new class extends ye{constructor(){
super(...arguments),this.elementClass="cm-activeLineGutter"}},fd=Tn.compute(["selection"],n=>{let e=[],t=-1;for(let i of n.
selection.ranges){let s=n.doc.lineAt(i.head).from;s>t&&(t=s,e.push(cd.range(s)))}return F.of(e)});function wh(){return fd}var ud=0,Ii=class{constructor(e,t){this.from=e,this.to=t}},E=class{constructor(e={}){this.id=ud++,this.perNode=!!e.perNode,
this.deserialize=e.deserialize||(()=>{throw new Error("This node type doesn't define a deserialize function")}),this.combine=
e.combine||null}add(e){if(this.perNode)throw new RangeError("Can't add per-node props to node types");return typeof e!="\
function"&&(e=fe.match(e)),t=>{let i=e(t);return i===void 0?null:[this,i]}}};E.closedBy=new E({deserialize:n=>n.split(" ")});
E.openedBy=new E({deserialize:n=>n.split(" ")});E.group=new E({deserialize:n=>n.split(" ")});E.isolate=new E({deserialize:n=>{
if(n&&n!="rtl"&&n!="ltr"&&n!="auto")throw new RangeError("Invalid value for isolate: "+n);return n||"auto"}});E.contextHash=
new E({perNode:!0});E.lookAhead=new E({perNode:!0});E.mounted=new E({perNode:!0});var Dt=class{constructor(e,t,i,s=!1){this.
tree=e,this.overlay=t,this.parser=i,this.bracketed=s}static get(e){return e&&e.props&&e.props[E.mounted.id]}},dd=Object.
create(null),fe=class n{constructor(e,t,i,s=0){this.name=e,this.props=t,this.id=i,this.flags=s}static define(e){let t=e.
props&&e.props.length?Object.create(null):dd,i=(e.top?1:0)|(e.skipped?2:0)|(e.error?4:0)|(e.name==null?8:0),s=new n(e.name||
"",t,e.id,i);if(e.props){for(let r of e.props)if(Array.isArray(r)||(r=r(s)),r){if(r[0].perNode)throw new RangeError("Can\
't store a per-node prop on a node type");t[r[0].id]=r[1]}}return s}prop(e){return this.props[e.id]}get isTop(){return(this.
flags&1)>0}get isSkipped(){return(this.flags&2)>0}get isError(){return(this.flags&4)>0}get isAnonymous(){return(this.flags&
8)>0}is(e){if(typeof e=="string"){if(this.name==e)return!0;let t=this.prop(E.group);return t?t.indexOf(e)>-1:!1}return this.
id==e}static match(e){let t=Object.create(null);for(let i in e)for(let s of i.split(" "))t[s]=e[i];return i=>{for(let s=i.
prop(E.group),r=-1;r<(s?s.length:0);r++){let o=t[r<0?i.name:s[r]];if(o)return o}}}};fe.none=new fe("",Object.create(null),
0,8);var Jn=class n{constructor(e){this.types=e;for(let t=0;t<e.length;t++)if(e[t].id!=t)throw new RangeError("Node type\
 ids should correspond to array positions when creating a node set")}extend(...e){let t=[];for(let i of this.types){let s=null;
for(let r of e){let o=r(i);if(o){s||(s=Object.assign({},i.props));let l=o[1],a=o[0];a.combine&&a.id in s&&(l=a.combine(s[a.
id],l)),s[a.id]=l}}t.push(s?new fe(i.name,s,i.id,i.flags):i)}return new n(t)}},Yn=new WeakMap,kh=new WeakMap,J;(function(n){
n[n.ExcludeBuffers=1]="ExcludeBuffers",n[n.IncludeAnonymous=2]="IncludeAnonymous",n[n.IgnoreMounts=4]="IgnoreMounts",n[n.
IgnoreOverlays=8]="IgnoreOverlays",n[n.EnterBracketed=16]="EnterBracketed"})(J||(J={}));var U=class n{constructor(e,t,i,s,r){
if(this.type=e,this.children=t,this.positions=i,this.length=s,this.props=null,r&&r.length){this.props=Object.create(null);
for(let[o,l]of r)this.props[typeof o=="number"?o:o.id]=l}}toString(){let e=Dt.get(this);if(e&&!e.overlay)return e.tree.toString();
let t="";for(let i of this.children){let s=i.toString();s&&(t&&(t+=","),t+=s)}return this.type.name?(/\W/.test(this.type.
name)&&!this.type.isError?JSON.stringify(this.type.name):this.type.name)+(t.length?"("+t+")":""):t}cursor(e=0){return new Hi(
this.topNode,e)}cursorAt(e,t=0,i=0){let s=Yn.get(this)||this.topNode,r=new Hi(s);return r.moveTo(e,t),Yn.set(this,r._tree),
r}get topNode(){return new Ke(this,0,0,null)}resolve(e,t=0){let i=Ni(Yn.get(this)||this.topNode,e,t,!1);return Yn.set(this,
i),i}resolveInner(e,t=0){let i=Ni(kh.get(this)||this.topNode,e,t,!0);return kh.set(this,i),i}resolveStack(e,t=0){return pd(
this,e,t)}iterate(e){let{enter:t,leave:i,from:s=0,to:r=this.length}=e,o=e.mode||0,l=(o&J.IncludeAnonymous)>0;for(let a=this.
cursor(o|J.IncludeAnonymous);;){let h=!1;if(a.from<=r&&a.to>=s&&(!l&&a.type.isAnonymous||t(a)!==!1)){if(a.firstChild())continue;
h=!0}for(;h&&i&&(l||!a.type.isAnonymous)&&i(a),!a.nextSibling();){if(!a.parent())return;h=!0}}}prop(e){return e.perNode?
this.props?this.props[e.id]:void 0:this.type.prop(e)}get propValues(){let e=[];if(this.props)for(let t in this.props)e.push(
[+t,this.props[t]]);return e}balance(e={}){return this.children.length<=8?this:uo(fe.none,this.children,this.positions,0,
this.children.length,0,this.length,(t,i,s)=>new n(this.type,t,i,s,this.propValues),e.makeTree||((t,i,s)=>new n(fe.none,t,
i,s)))}static build(e){return gd(e)}};U.empty=new U(fe.none,[],[],0);var oo=class n{constructor(e,t){this.buffer=e,this.
index=t}get id(){return this.buffer[this.index-4]}get start(){return this.buffer[this.index-3]}get end(){return this.buffer[this.
index-2]}get size(){return this.buffer[this.index-1]}get pos(){return this.index}next(){this.index-=4}fork(){return new n(
this.buffer,this.index)}},at=class n{constructor(e,t,i){this.buffer=e,this.length=t,this.set=i}get type(){return fe.none}toString(){
let e=[];for(let t=0;t<this.buffer.length;)e.push(this.childString(t)),t=this.buffer[t+3];return e.join(",")}childString(e){
let t=this.buffer[e],i=this.buffer[e+3],s=this.set.types[t],r=s.name;if(/\W/.test(r)&&!s.isError&&(r=JSON.stringify(r)),
e+=4,i==e)return r;let o=[];for(;e<i;)o.push(this.childString(e)),e=this.buffer[e+3];return r+"("+o.join(",")+")"}findChild(e,t,i,s,r){
let{buffer:o}=this,l=-1;for(let a=e;a!=t&&!(Ch(r,s,o[a+1],o[a+2])&&(l=a,i>0));a=o[a+3]);return l}slice(e,t,i){let s=this.
buffer,r=new Uint16Array(t-e),o=0;for(let l=e,a=0;l<t;){r[a++]=s[l++],r[a++]=s[l++]-i;let h=r[a++]=s[l++]-i;r[a++]=s[l++]-
e,o=Math.max(o,h)}return new n(r,o,this.set)}};function Ch(n,e,t,i){switch(n){case-2:return t<e;case-1:return i>=e&&t<e;case 0:
return t<e&&i>e;case 1:return t<=e&&i>e;case 2:return i>e;case 4:return!0}}function Ni(n,e,t,i){for(var s;n.from==n.to||
(t<1?n.from>=e:n.from>e)||(t>-1?n.to<=e:n.to<e);){let o=!i&&n instanceof Ke&&n.index<0?null:n.parent;if(!o)return n;n=o}
let r=i?0:J.IgnoreOverlays;if(i)for(let o=n,l=o.parent;l;o=l,l=o.parent)o instanceof Ke&&o.index<0&&((s=l.enter(e,t,r))===
null||s===void 0?void 0:s.from)!=o.from&&(n=l);for(;;){let o=n.enter(e,t,r);if(!o)return n;n=o}}var Qn=class{cursor(e=0){
return new Hi(this,e)}getChild(e,t=null,i=null){let s=vh(this,e,t,i);return s.length?s[0]:null}getChildren(e,t=null,i=null){
return vh(this,e,t,i)}resolve(e,t=0){return Ni(this,e,t,!1)}resolveInner(e,t=0){return Ni(this,e,t,!0)}matchContext(e){return lo(
this.parent,e)}enterUnfinishedNodesBefore(e){let t=this.childBefore(e),i=this;for(;t;){let s=t.lastChild;if(!s||s.to!=t.
to)break;s.type.isError&&s.from==s.to?(i=t,t=s.prevSibling):t=s}return i}get node(){return this}get next(){return this.parent}},
Ke=class n extends Qn{constructor(e,t,i,s){super(),this._tree=e,this.from=t,this.index=i,this._parent=s}get type(){return this.
_tree.type}get name(){return this._tree.type.name}get to(){return this.from+this._tree.length}nextChild(e,t,i,s,r=0){for(let o=this;;){
for(let{children:l,positions:a}=o._tree,h=t>0?l.length:-1;e!=h;e+=t){let c=l[e],f=a[e]+o.from,u;if(!(!(r&J.EnterBracketed&&
c instanceof U&&(u=Dt.get(c))&&!u.overlay&&u.bracketed&&i>=f&&i<=f+c.length)&&!Ch(s,i,f,f+c.length))){if(c instanceof at){
if(r&J.ExcludeBuffers)continue;let d=c.findChild(0,c.buffer.length,t,i-f,s);if(d>-1)return new Fi(new ao(o,c,e,f),null,d)}else if(r&
J.IncludeAnonymous||!c.type.isAnonymous||fo(c)){let d;if(!(r&J.IgnoreMounts)&&(d=Dt.get(c))&&!d.overlay)return new n(d.tree,
f,e,o);let p=new n(c,f,e,o);return r&J.IncludeAnonymous||!p.type.isAnonymous?p:p.nextChild(t<0?c.children.length-1:0,t,i,
s,r)}}}if(r&J.IncludeAnonymous||!o.type.isAnonymous||(o.index>=0?e=o.index+t:e=t<0?-1:o._parent._tree.children.length,o=
o._parent,!o))return null}}get firstChild(){return this.nextChild(0,1,0,4)}get lastChild(){return this.nextChild(this._tree.
children.length-1,-1,0,4)}childAfter(e){return this.nextChild(0,1,e,2)}childBefore(e){return this.nextChild(this._tree.children.
length-1,-1,e,-2)}prop(e){return this._tree.prop(e)}enter(e,t,i=0){let s;if(!(i&J.IgnoreOverlays)&&(s=Dt.get(this._tree))&&
s.overlay){let r=e-this.from,o=i&J.EnterBracketed&&s.bracketed;for(let{from:l,to:a}of s.overlay)if((t>0||o?l<=r:l<r)&&(t<
0||o?a>=r:a>r))return new n(s.tree,s.overlay[0].from+this.from,-1,this)}return this.nextChild(0,1,e,t,i)}nextSignificantParent(){
let e=this;for(;e.type.isAnonymous&&e._parent;)e=e._parent;return e}get parent(){return this._parent?this._parent.nextSignificantParent():
null}get nextSibling(){return this._parent&&this.index>=0?this._parent.nextChild(this.index+1,1,0,4):null}get prevSibling(){
return this._parent&&this.index>=0?this._parent.nextChild(this.index-1,-1,0,4):null}get tree(){return this._tree}toTree(){
return this._tree}toString(){return this._tree.toString()}};function vh(n,e,t,i){let s=n.cursor(),r=[];if(!s.firstChild())
return r;if(t!=null){for(let o=!1;!o;)if(o=s.type.is(t),!s.nextSibling())return r}for(;;){if(i!=null&&s.type.is(i))return r;
if(s.type.is(e)&&r.push(s.node),!s.nextSibling())return i==null?r:[]}}function lo(n,e,t=e.length-1){for(let i=n;t>=0;i=i.
parent){if(!i)return!1;if(!i.type.isAnonymous){if(e[t]&&e[t]!=i.name)return!1;t--}}return!0}var ao=class{constructor(e,t,i,s){
this.parent=e,this.buffer=t,this.index=i,this.start=s}},Fi=class n extends Qn{get name(){return this.type.name}get from(){
return this.context.start+this.context.buffer.buffer[this.index+1]}get to(){return this.context.start+this.context.buffer.
buffer[this.index+2]}constructor(e,t,i){super(),this.context=e,this._parent=t,this.index=i,this.type=e.buffer.set.types[e.
buffer.buffer[i]]}child(e,t,i){let{buffer:s}=this.context,r=s.findChild(this.index+4,s.buffer[this.index+3],e,t-this.context.
start,i);return r<0?null:new n(this.context,this,r)}get firstChild(){return this.child(1,0,4)}get lastChild(){return this.
child(-1,0,4)}childAfter(e){return this.child(1,e,2)}childBefore(e){return this.child(-1,e,-2)}prop(e){return this.type.
prop(e)}enter(e,t,i=0){if(i&J.ExcludeBuffers)return null;let{buffer:s}=this.context,r=s.findChild(this.index+4,s.buffer[this.
index+3],t>0?1:-1,e-this.context.start,t);return r<0?null:new n(this.context,this,r)}get parent(){return this._parent||this.
context.parent.nextSignificantParent()}externalSibling(e){return this._parent?null:this.context.parent.nextChild(this.context.
index+e,e,0,4)}get nextSibling(){let{buffer:e}=this.context,t=e.buffer[this.index+3];return t<(this._parent?e.buffer[this.
_parent.index+3]:e.buffer.length)?new n(this.context,this._parent,t):this.externalSibling(1)}get prevSibling(){let{buffer:e}=this.
context,t=this._parent?this._parent.index+4:0;return this.index==t?this.externalSibling(-1):new n(this.context,this._parent,
e.findChild(t,this.index,-1,0,4))}get tree(){return null}toTree(){let e=[],t=[],{buffer:i}=this.context,s=this.index+4,r=i.
buffer[this.index+3];if(r>s){let o=i.buffer[this.index+1];e.push(i.slice(s,r,o)),t.push(0)}return new U(this.type,e,t,this.
to-this.from)}toString(){return this.context.buffer.childString(this.index)}};function Ah(n){if(!n.length)return null;let e=0,
t=n[0];for(let r=1;r<n.length;r++){let o=n[r];(o.from>t.from||o.to<t.to)&&(t=o,e=r)}let i=t instanceof Ke&&t.index<0?null:
t.parent,s=n.slice();return i?s[e]=i:s.splice(e,1),new ho(s,t)}var ho=class{constructor(e,t){this.heads=e,this.node=t}get next(){
return Ah(this.heads)}};function pd(n,e,t){let i=n.resolveInner(e,t),s=null;for(let r=i instanceof Ke?i:i.context.parent;r;r=
r.parent)if(r.index<0){let o=r.parent;(s||(s=[i])).push(o.resolve(e,t)),r=o}else{let o=Dt.get(r.tree);if(o&&o.overlay&&o.
overlay[0].from<=e&&o.overlay[o.overlay.length-1].to>=e){let l=new Ke(o.tree,o.overlay[0].from+r.from,-1,r);(s||(s=[i])).
push(Ni(l,e,t,!1))}}return s?Ah(s):i}var Hi=class{get name(){return this.type.name}constructor(e,t=0){if(this.buffer=null,
this.stack=[],this.index=0,this.bufferNode=null,this.mode=t&~J.EnterBracketed,e instanceof Ke)this.yieldNode(e);else{this.
_tree=e.context.parent,this.buffer=e.context;for(let i=e._parent;i;i=i._parent)this.stack.unshift(i.index);this.bufferNode=
e,this.yieldBuf(e.index)}}yieldNode(e){return e?(this._tree=e,this.type=e.type,this.from=e.from,this.to=e.to,!0):!1}yieldBuf(e,t){
this.index=e;let{start:i,buffer:s}=this.buffer;return this.type=t||s.set.types[s.buffer[e]],this.from=i+s.buffer[e+1],this.
to=i+s.buffer[e+2],!0}yield(e){return e?e instanceof Ke?(this.buffer=null,this.yieldNode(e)):(this.buffer=e.context,this.
yieldBuf(e.index,e.type)):!1}toString(){return this.buffer?this.buffer.buffer.childString(this.index):this._tree.toString()}enterChild(e,t,i){
if(!this.buffer)return this.yield(this._tree.nextChild(e<0?this._tree._tree.children.length-1:0,e,t,i,this.mode));let{buffer:s}=this.
buffer,r=s.findChild(this.index+4,s.buffer[this.index+3],e,t-this.buffer.start,i);return r<0?!1:(this.stack.push(this.index),
this.yieldBuf(r))}firstChild(){return this.enterChild(1,0,4)}lastChild(){return this.enterChild(-1,0,4)}childAfter(e){return this.
enterChild(1,e,2)}childBefore(e){return this.enterChild(-1,e,-2)}enter(e,t,i=this.mode){return this.buffer?i&J.ExcludeBuffers?
!1:this.enterChild(1,e,t):this.yield(this._tree.enter(e,t,i))}parent(){if(!this.buffer)return this.yieldNode(this.mode&J.
IncludeAnonymous?this._tree._parent:this._tree.parent);if(this.stack.length)return this.yieldBuf(this.stack.pop());let e=this.
mode&J.IncludeAnonymous?this.buffer.parent:this.buffer.parent.nextSignificantParent();return this.buffer=null,this.yieldNode(
e)}sibling(e){if(!this.buffer)return this._tree._parent?this.yield(this._tree.index<0?null:this._tree._parent.nextChild(
this._tree.index+e,e,0,4,this.mode)):!1;let{buffer:t}=this.buffer,i=this.stack.length-1;if(e<0){let s=i<0?0:this.stack[i]+
4;if(this.index!=s)return this.yieldBuf(t.findChild(s,this.index,-1,0,4))}else{let s=t.buffer[this.index+3];if(s<(i<0?t.
buffer.length:t.buffer[this.stack[i]+3]))return this.yieldBuf(s)}return i<0?this.yield(this.buffer.parent.nextChild(this.
buffer.index+e,e,0,4,this.mode)):!1}nextSibling(){return this.sibling(1)}prevSibling(){return this.sibling(-1)}atLastNode(e){
let t,i,{buffer:s}=this;if(s){if(e>0){if(this.index<s.buffer.buffer.length)return!1}else for(let r=0;r<this.index;r++)if(s.
buffer.buffer[r+3]<this.index)return!1;({index:t,parent:i}=s)}else({index:t,_parent:i}=this._tree);for(;i;{index:t,_parent:i}=
i)if(t>-1)for(let r=t+e,o=e<0?-1:i._tree.children.length;r!=o;r+=e){let l=i._tree.children[r];if(this.mode&J.IncludeAnonymous||
l instanceof at||!l.type.isAnonymous||fo(l))return!1}return!0}move(e,t){if(t&&this.enterChild(e,0,4))return!0;for(;;){if(this.
sibling(e))return!0;if(this.atLastNode(e)||!this.parent())return!1}}next(e=!0){return this.move(1,e)}prev(e=!0){return this.
move(-1,e)}moveTo(e,t=0){for(;(this.from==this.to||(t<1?this.from>=e:this.from>e)||(t>-1?this.to<=e:this.to<e))&&this.parent();)
;for(;this.enterChild(1,e,t););return this}get node(){if(!this.buffer)return this._tree;let e=this.bufferNode,t=null,i=0;
if(e&&e.context==this.buffer)e:for(let s=this.index,r=this.stack.length;r>=0;){for(let o=e;o;o=o._parent)if(o.index==s){
if(s==this.index)return o;t=o,i=r+1;break e}s=this.stack[--r]}for(let s=i;s<this.stack.length;s++)t=new Fi(this.buffer,t,
this.stack[s]);return this.bufferNode=new Fi(this.buffer,t,this.index)}get tree(){return this.buffer?null:this._tree._tree}iterate(e,t){
for(let i=0;;){let s=!1;if(this.type.isAnonymous||e(this)!==!1){if(this.firstChild()){i++;continue}this.type.isAnonymous||
(s=!0)}for(;;){if(s&&t&&t(this),s=this.type.isAnonymous,!i)return;if(this.nextSibling())break;this.parent(),i--,s=!0}}}matchContext(e){
if(!this.buffer)return lo(this.node.parent,e);let{buffer:t}=this.buffer,{types:i}=t.set;for(let s=e.length-1,r=this.stack.
length-1;s>=0;r--){if(r<0)return lo(this._tree,e,s);let o=i[t.buffer[this.stack[r]]];if(!o.isAnonymous){if(e[s]&&e[s]!=o.
name)return!1;s--}}return!0}};function fo(n){return n.children.some(e=>e instanceof at||!e.type.isAnonymous||fo(e))}function gd(n){
var e;let{buffer:t,nodeSet:i,maxBufferLength:s=1024,reused:r=[],minRepeatType:o=i.types.length}=n,l=Array.isArray(t)?new oo(
t,t.length):t,a=i.types,h=0,c=0;function f(S,D,O,N,W,Y){let{id:I,start:B,end:$,size:_}=l,ie=c,Ue=h;if(_<0)if(l.next(),_==
-1){let _e=r[I];O.push(_e),N.push(B-S);return}else if(_==-3){h=I;return}else if(_==-4){c=I;return}else throw new RangeError(
`Unrecognized record size: ${_}`);let ui=a[I],en,mt,el=B-S;if($-B<=s&&(mt=m(l.pos-D,W))){let _e=new Uint16Array(mt.size-
mt.skip),oe=l.pos-mt.size,Oe=_e.length;for(;l.pos>oe;)Oe=y(mt.start,_e,Oe);en=new at(_e,$-mt.start,i),el=mt.start-S}else{
let _e=l.pos-_;l.next();let oe=[],Oe=[],We=I>=o?I:-1,Ye=0,Ft=$,di=ie;for(;l.pos>_e;)We>=0&&l.id==We&&l.size>=0?(l.end<=Ft-
s&&(p(oe,Oe,B,Ye,l.end,Ft,We,di,Ue),Ye=oe.length,Ft=l.end,di=c),l.next()):Y>2500?u(B,_e,oe,Oe):(We>=0&&l.size==-1&&r[l.id].
type==i.types[We]&&(Ye<oe.length&&p(oe,Oe,B,Ye,l.end,Ft,We,di,Ue),Ye=oe.length+1,Ft=l.start,di=c),f(B,_e,oe,Oe,We,Y+1));
if(We>=0&&Ye>0&&Ye<oe.length&&p(oe,Oe,B,Ye,B,Ft,We,di,Ue),oe.reverse(),Oe.reverse(),We>-1&&Ye>0){let tl=d(ui,Ue);en=uo(ui,
oe,Oe,0,oe.length,0,$-B,tl,tl)}else en=g(ui,oe,Oe,$-B,ie-$,Ue)}O.push(en),N.push(el)}function u(S,D,O,N){let W=[],Y=0,I=-1;
for(;l.pos>D;){let{id:B,start:$,end:_,size:ie}=l;if(ie>4)l.next();else{if(I>-1&&$<I)break;I<0&&(I=_-s),W.push(B,$,_),Y++,
l.next()}}if(Y){let B=new Uint16Array(Y*4),$=W[W.length-2];for(let _=W.length-3,ie=0;_>=0;_-=3)B[ie++]=W[_],B[ie++]=W[_+
1]-$,B[ie++]=W[_+2]-$,B[ie++]=ie;O.push(new at(B,W[2]-$,i)),N.push($-S)}}function d(S,D){return(O,N,W)=>{let Y=0,I=O.length-
1,B,$;if(I>=0&&(B=O[I])instanceof U){if(!I&&B.type==S&&B.length==W)return B;($=B.prop(E.lookAhead))&&(Y=N[I]+B.length+$-
W)}return g(S,O,N,W,Y,D)}}function p(S,D,O,N,W,Y,I,B,$){let _=[],ie=[];for(;S.length>N;)_.push(S.pop()),ie.push(D.pop()+
O-W);S.push(g(i.types[I],_,ie,Y-W,B-Y,$)),D.push(W-O)}function g(S,D,O,N,W,Y,I){if(Y){let B=[E.contextHash,Y];I=I?[B].concat(
I):[B]}if(W>25){let B=[E.lookAhead,W];I=I?[B].concat(I):[B]}return new U(S,D,O,N,I)}function m(S,D){let O=l.fork(),N=0,W=0,
Y=0,I=O.end-s,B={size:0,start:0,skip:0};e:for(let $=O.pos-S;O.pos>$;){let _=O.size;if(O.id==D&&_>=0){B.size=N,B.start=W,
B.skip=Y,Y+=4,N+=4,O.next();continue}let ie=O.pos-_;if(_<0||ie<$||O.start<I)break;let Ue=O.id>=o?4:0,ui=O.start;for(O.next();O.
pos>ie;){if(O.size<0)if(O.size==-3||O.size==-4)Ue+=4;else break e;else O.id>=o&&(Ue+=4);O.next()}W=ui,N+=_,Y+=Ue}return(D<
0||N==S)&&(B.size=N,B.start=W,B.skip=Y),B.size>4?B:void 0}function y(S,D,O){let{id:N,start:W,end:Y,size:I}=l;if(l.next(),
I>=0&&N<o){let B=O;if(I>4){let $=l.pos-(I-4);for(;l.pos>$;)O=y(S,D,O)}D[--O]=B,D[--O]=Y-S,D[--O]=W-S,D[--O]=N}else I==-3?
h=N:I==-4&&(c=N);return O}let A=[],b=[];for(;l.pos>0;)f(n.start||0,n.bufferStart||0,A,b,-1,0);let T=(e=n.length)!==null&&
e!==void 0?e:A.length?b[0]+A[0].length:0;return new U(a[n.topID],A.reverse(),b.reverse(),T)}var Sh=new WeakMap;function Xn(n,e){
if(!n.isAnonymous||e instanceof at||e.type!=n)return 1;let t=Sh.get(e);if(t==null){t=1;for(let i of e.children){if(i.type!=
n||!(i instanceof U)){t=1;break}t+=Xn(n,i)}Sh.set(e,t)}return t}function uo(n,e,t,i,s,r,o,l,a){let h=0;for(let p=i;p<s;p++)
h+=Xn(n,e[p]);let c=Math.ceil(h*1.5/8),f=[],u=[];function d(p,g,m,y,A){for(let b=m;b<y;){let T=b,S=g[b],D=Xn(n,p[b]);for(b++;b<
y;b++){let O=Xn(n,p[b]);if(D+O>=c)break;D+=O}if(b==T+1){if(D>c){let O=p[T];d(O.children,O.positions,0,O.children.length,
g[T]+A);continue}f.push(p[T])}else{let O=g[b-1]+p[b-1].length-S;f.push(uo(n,p,g,T,b,S,O,null,a))}u.push(S+A-r)}}return d(
e,t,i,s,0),(l||a)(f,u,o)}var Ot=class n{constructor(e,t,i,s,r=!1,o=!1){this.from=e,this.to=t,this.tree=i,this.offset=s,this.open=(r?1:0)|(o?2:0)}get openStart(){
return(this.open&1)>0}get openEnd(){return(this.open&2)>0}static addTree(e,t=[],i=!1){let s=[new n(0,e.length,e,0,!1,i)];
for(let r of t)r.to>e.length&&s.push(r);return s}static applyChanges(e,t,i=128){if(!t.length)return e;let s=[],r=1,o=e.length?
e[0]:null;for(let l=0,a=0,h=0;;l++){let c=l<t.length?t[l]:null,f=c?c.fromA:1e9;if(f-a>=i)for(;o&&o.from<f;){let u=o;if(a>=
u.from||f<=u.to||h){let d=Math.max(u.from,a)-h,p=Math.min(u.to,f)-h;u=d>=p?null:new n(d,p,u.tree,u.offset+h,l>0,!!c)}if(u&&
s.push(u),o.to>f)break;o=r<e.length?e[r++]:null}if(!c)break;a=c.toA,h=c.toA-c.toB}return s}},Wi=class{startParse(e,t,i){
return typeof e=="string"&&(e=new co(e)),i=i?i.length?i.map(s=>new Ii(s.from,s.to)):[new Ii(0,0)]:[new Ii(0,e.length)],this.
createParse(e,t||[],i)}parse(e,t,i){let s=this.startParse(e,t,i);for(;;){let r=s.advance();if(r)return r}}},co=class{constructor(e){
this.string=e}get length(){return this.string.length}chunk(e){return this.string.slice(e)}get lineChunks(){return!1}read(e,t){
return this.string.slice(e,t)}};var lm=new E({perNode:!0});var md=0,Pe=class n{constructor(e,t,i,s){this.name=e,this.set=t,this.base=i,this.modified=s,this.id=md++}toString(){let{
name:e}=this;for(let t of this.modified)t.name&&(e=`${t.name}(${e})`);return e}static define(e,t){let i=typeof e=="strin\
g"?e:"?";if(e instanceof n&&(t=e),t?.base)throw new Error("Can not derive from a modified tag");let s=new n(i,[],null,[]);
if(s.set.push(s),t)for(let r of t.set)s.set.push(r);return s}static defineModifier(e){let t=new is(e);return i=>i.modified.
indexOf(t)>-1?i:is.get(i.base||i,i.modified.concat(t).sort((s,r)=>s.id-r.id))}},yd=0,is=class n{constructor(e){this.name=
e,this.instances=[],this.id=yd++}static get(e,t){if(!t.length)return e;let i=t[0].instances.find(l=>l.base==e&&bd(t,l.modified));
if(i)return i;let s=[],r=new Pe(e.name,s,e,t);for(let l of t)l.instances.push(r);let o=xd(t);for(let l of e.set)if(!l.modified.
length)for(let a of o)s.push(n.get(l,a));return r}};function bd(n,e){return n.length==e.length&&n.every((t,i)=>t==e[i])}
function xd(n){let e=[[]];for(let t=0;t<n.length;t++)for(let i=0,s=e.length;i<s;i++)e.push(e[i].concat(n[t]));return e.sort(
(t,i)=>i.length-t.length)}function Dh(n){let e=Object.create(null);for(let t in n){let i=n[t];Array.isArray(i)||(i=[i]);
for(let s of t.split(" "))if(s){let r=[],o=2,l=s;for(let f=0;;){if(l=="..."&&f>0&&f+3==s.length){o=1;break}let u=/^"(?:[^"\\]|\\.)*?"|[^\/!]+/.
exec(l);if(!u)throw new RangeError("Invalid path: "+s);if(r.push(u[0]=="*"?"":u[0][0]=='"'?JSON.parse(u[0]):u[0]),f+=u[0].
length,f==s.length)break;let d=s[f++];if(f==s.length&&d=="!"){o=0;break}if(d!="/")throw new RangeError("Invalid path: "+
s);l=s.slice(f)}let a=r.length-1,h=r[a];if(!h)throw new RangeError("Invalid path: "+s);let c=new Lt(i,o,a>0?r.slice(0,a):
null);e[h]=c.sort(e[h])}}return Oh.add(e)}var Oh=new E({combine(n,e){let t,i,s;for(;n||e;){if(!n||e&&n.depth<=e.depth?(s=
e,e=e.next):(s=n,n=n.next),t&&t.mode==s.mode&&!s.context&&!t.context)continue;let r=new Lt(s.tags,s.mode,s.context);t?t.
next=r:i=r,t=r}return i}}),Lt=class{constructor(e,t,i,s){this.tags=e,this.mode=t,this.context=i,this.next=s}get opaque(){
return this.mode==0}get inherit(){return this.mode==1}sort(e){return!e||e.depth<this.depth?(this.next=e,this):(e.next=this.
sort(e.next),e)}get depth(){return this.context?this.context.length:0}};Lt.empty=new Lt([],2,null);function yo(n,e){let t=Object.
create(null);for(let r of n)if(!Array.isArray(r.tag))t[r.tag.id]=r.class;else for(let o of r.tag)t[o.id]=r.class;let{scope:i,
all:s=null}=e||{};return{style:r=>{let o=s;for(let l of r)for(let a of l.set){let h=t[a.id];if(h){o=o?o+" "+h:h;break}}return o},
scope:i}}function wd(n,e){let t=null;for(let i of n){let s=i.style(e);s&&(t=t?t+" "+s:s)}return t}function Bh(n,e,t,i=0,s=n.
length){let r=new go(i,Array.isArray(e)?e:[e],t);r.highlightRange(n.cursor(),i,s,"",r.highlighters),r.flush(s)}var go=class{constructor(e,t,i){this.at=e,this.highlighters=t,this.span=i,this.class=""}startSpan(e,t){t!=this.class&&(this.
flush(e),e>this.at&&(this.at=e),this.class=t)}flush(e){e>this.at&&this.class&&this.span(this.at,e,this.class)}highlightRange(e,t,i,s,r){
let{type:o,from:l,to:a}=e;if(l>=i||a<=t)return;o.isTop&&(r=this.highlighters.filter(d=>!d.scope||d.scope(o)));let h=s,c=kd(
e)||Lt.empty,f=wd(r,c.tags);if(f&&(h&&(h+=" "),h+=f,c.mode==1&&(s+=(s?" ":"")+f)),this.startSpan(Math.max(t,l),h),c.opaque)
return;let u=e.tree&&e.tree.prop(E.mounted);if(u&&u.overlay){let d=e.node.enter(u.overlay[0].from+l,1),p=this.highlighters.
filter(m=>!m.scope||m.scope(u.tree.type)),g=e.firstChild();for(let m=0,y=l;;m++){let A=m<u.overlay.length?u.overlay[m]:null,
b=A?A.from+l:a,T=Math.max(t,y),S=Math.min(i,b);if(T<S&&g)for(;e.from<S&&(this.highlightRange(e,T,S,s,r),this.startSpan(Math.
min(S,e.to),h),!(e.to>=b||!e.nextSibling())););if(!A||b>i)break;y=A.to+l,y>t&&(this.highlightRange(d.cursor(),Math.max(t,
A.from+l),Math.min(i,y),"",p),this.startSpan(Math.min(i,y),h))}g&&e.parent()}else if(e.firstChild()){u&&(s="");do if(!(e.
to<=t)){if(e.from>=i)break;this.highlightRange(e,t,i,s,r),this.startSpan(Math.min(i,e.to),h)}while(e.nextSibling());e.parent()}}};
function kd(n){let e=n.type.prop(Oh);for(;e&&e.context&&!n.matchContext(e.context);)e=e.next;return e||null}var k=Pe.define,
Zn=k(),ht=k(),Mh=k(ht),Th=k(ht),ct=k(),es=k(ct),po=k(ct),Ge=k(),Bt=k(Ge),$e=k(),je=k(),mo=k(),Vi=k(mo),ts=k(),w={comment:Zn,
lineComment:k(Zn),blockComment:k(Zn),docComment:k(Zn),name:ht,variableName:k(ht),typeName:Mh,tagName:k(Mh),propertyName:Th,
attributeName:k(Th),className:k(ht),labelName:k(ht),namespace:k(ht),macroName:k(ht),literal:ct,string:es,docString:k(es),
character:k(es),attributeValue:k(es),number:po,integer:k(po),float:k(po),bool:k(ct),regexp:k(ct),escape:k(ct),color:k(ct),
url:k(ct),keyword:$e,self:k($e),null:k($e),atom:k($e),unit:k($e),modifier:k($e),operatorKeyword:k($e),controlKeyword:k($e),
definitionKeyword:k($e),moduleKeyword:k($e),operator:je,derefOperator:k(je),arithmeticOperator:k(je),logicOperator:k(je),
bitwiseOperator:k(je),compareOperator:k(je),updateOperator:k(je),definitionOperator:k(je),typeOperator:k(je),controlOperator:k(
je),punctuation:mo,separator:k(mo),bracket:Vi,angleBracket:k(Vi),squareBracket:k(Vi),paren:k(Vi),brace:k(Vi),content:Ge,
heading:Bt,heading1:k(Bt),heading2:k(Bt),heading3:k(Bt),heading4:k(Bt),heading5:k(Bt),heading6:k(Bt),contentSeparator:k(
Ge),list:k(Ge),quote:k(Ge),emphasis:k(Ge),strong:k(Ge),link:k(Ge),monospace:k(Ge),strikethrough:k(Ge),inserted:k(),deleted:k(),
changed:k(),invalid:k(),meta:ts,documentMeta:k(ts),annotation:k(ts),processingInstruction:k(ts),definition:Pe.defineModifier(
"definition"),constant:Pe.defineModifier("constant"),function:Pe.defineModifier("function"),standard:Pe.defineModifier("\
standard"),local:Pe.defineModifier("local"),special:Pe.defineModifier("special")};for(let n in w){let e=w[n];e instanceof
Pe&&(e.name=n)}var cm=yo([{tag:w.link,class:"tok-link"},{tag:w.heading,class:"tok-heading"},{tag:w.emphasis,class:"tok-e\
mphasis"},{tag:w.strong,class:"tok-strong"},{tag:w.keyword,class:"tok-keyword"},{tag:w.atom,class:"tok-atom"},{tag:w.bool,
class:"tok-bool"},{tag:w.url,class:"tok-url"},{tag:w.labelName,class:"tok-labelName"},{tag:w.inserted,class:"tok-inserte\
d"},{tag:w.deleted,class:"tok-deleted"},{tag:w.literal,class:"tok-literal"},{tag:w.string,class:"tok-string"},{tag:w.number,
class:"tok-number"},{tag:[w.regexp,w.escape,w.special(w.string)],class:"tok-string2"},{tag:w.variableName,class:"tok-var\
iableName"},{tag:w.local(w.variableName),class:"tok-variableName tok-local"},{tag:w.definition(w.variableName),class:"to\
k-variableName tok-definition"},{tag:w.special(w.variableName),class:"tok-variableName2"},{tag:w.definition(w.propertyName),
class:"tok-propertyName tok-definition"},{tag:w.typeName,class:"tok-typeName"},{tag:w.namespace,class:"tok-namespace"},{
tag:w.className,class:"tok-className"},{tag:w.macroName,class:"tok-macroName"},{tag:w.propertyName,class:"tok-propertyNa\
me"},{tag:w.operator,class:"tok-operator"},{tag:w.comment,class:"tok-comment"},{tag:w.meta,class:"tok-meta"},{tag:w.invalid,
class:"tok-invalid"},{tag:w.punctuation,class:"tok-punctuation"}]);function Lh(n,e,t,i=0,s=0){e==null&&(e=n.search(/[^\s\u00a0]/),e==-1&&(e=n.length));let r=s;for(let o=i;o<e;o++)n.charCodeAt(
o)==9?r+=t-r%t:r++;return r}var zi=class{constructor(e,t,i,s){this.string=e,this.tabSize=t,this.indentUnit=i,this.overrideIndent=
s,this.pos=0,this.start=0,this.lastColumnPos=0,this.lastColumnValue=0}eol(){return this.pos>=this.string.length}sol(){return this.
pos==0}peek(){return this.string.charAt(this.pos)||void 0}next(){if(this.pos<this.string.length)return this.string.charAt(
this.pos++)}eat(e){let t=this.string.charAt(this.pos),i;if(typeof e=="string"?i=t==e:i=t&&(e instanceof RegExp?e.test(t):
e(t)),i)return++this.pos,t}eatWhile(e){let t=this.pos;for(;this.eat(e););return this.pos>t}eatSpace(){let e=this.pos;for(;/[\s\u00a0]/.
test(this.string.charAt(this.pos));)++this.pos;return this.pos>e}skipToEnd(){this.pos=this.string.length}skipTo(e){let t=this.
string.indexOf(e,this.pos);if(t>-1)return this.pos=t,!0}backUp(e){this.pos-=e}column(){return this.lastColumnPos<this.start&&
(this.lastColumnValue=Lh(this.string,this.start,this.tabSize,this.lastColumnPos,this.lastColumnValue),this.lastColumnPos=
this.start),this.lastColumnValue}indentation(){var e;return(e=this.overrideIndent)!==null&&e!==void 0?e:Lh(this.string,null,
this.tabSize)}match(e,t,i){if(typeof e=="string"){let s=o=>i?o.toLowerCase():o,r=this.string.substr(this.pos,e.length);return s(
r)==s(e)?(t!==!1&&(this.pos+=e.length),!0):null}else{let s=this.string.slice(this.pos).match(e);return s&&s.index>0?null:
(s&&t!==!1&&(this.pos+=s[0].length),s)}}current(){return this.string.slice(this.start,this.pos)}};var bo,oi=new E;function vd(n){return C.define({combine:n?e=>e.concat(n):void 0})}var Sd=new E,be=class{constructor(e,t,i=[],s=""){
this.data=e,this.name=s,V.prototype.hasOwnProperty("tree")||Object.defineProperty(V.prototype,"tree",{get(){return Ie(this)}}),
this.parser=t,this.extension=[li.of(this),V.languageData.of((r,o,l)=>{let a=Eh(r,o,l),h=a.type.prop(oi);if(!h)return[];let c=r.
facet(h),f=a.type.prop(Sd);if(f){let u=a.resolve(o-a.from,l);for(let d of f)if(d.test(u,r)){let p=r.facet(d.facet);return d.
type=="replace"?p:p.concat(c)}}return c})].concat(i)}isActiveAt(e,t,i=-1){return Eh(e,t,i).type.prop(oi)==this.data}findRegions(e){
let t=e.facet(li);if(t?.data==this.data)return[{from:0,to:e.doc.length}];if(!t||!t.allowsNesting)return[];let i=[],s=(r,o)=>{
if(r.prop(oi)==this.data){i.push({from:o,to:o+r.length});return}let l=r.prop(E.mounted);if(l){if(l.tree.prop(oi)==this.data){
if(l.overlay)for(let a of l.overlay)i.push({from:a.from+o,to:a.to+o});else i.push({from:o,to:o+r.length});return}else if(l.
overlay){let a=i.length;if(s(l.tree,l.overlay[0].from+o),i.length>a)return}}for(let a=0;a<r.children.length;a++){let h=r.
children[a];h instanceof U&&s(h,r.positions[a]+o)}};return s(Ie(e),0),i}get allowsNesting(){return!0}};be.setState=R.define();
function Eh(n,e,t){let i=n.facet(li),s=Ie(n).topNode;if(!i||i.allowsNesting)for(let r=s;r;r=r.enter(e,t,J.ExcludeBuffers|
J.EnterBracketed))r.type.isTop&&(s=r);return s}function Ie(n){let e=n.field(be.state,!1);return e?e.tree:U.empty}var vo=class{constructor(e){this.doc=e,this.cursorPos=0,this.string="",this.cursor=e.iter()}get length(){return this.doc.
length}syncTo(e){return this.string=this.cursor.next(e-this.cursorPos).value,this.cursorPos=e+this.string.length,this.cursorPos-
this.string.length}chunk(e){return this.syncTo(e),this.string}get lineChunks(){return!0}read(e,t){let i=this.cursorPos-this.
string.length;return e<i||t>=this.cursorPos?this.doc.sliceString(e,t):this.string.slice(e-i,t-i)}},qi=null,Ki=class n{constructor(e,t,i=[],s,r,o,l,a){
this.parser=e,this.state=t,this.fragments=i,this.tree=s,this.treeLen=r,this.viewport=o,this.skipped=l,this.scheduleOn=a,
this.parse=null,this.tempSkipped=[]}static create(e,t,i){return new n(e,t,[],U.empty,0,i,[],null)}startParse(){return this.
parser.startParse(new vo(this.state.doc),this.fragments)}work(e,t){return t!=null&&t>=this.state.doc.length&&(t=void 0),
this.tree!=U.empty&&this.isDone(t??this.state.doc.length)?(this.takeTree(),!0):this.withContext(()=>{var i;if(typeof e==
"number"){let s=Date.now()+e;e=()=>Date.now()>s}for(this.parse||(this.parse=this.startParse()),t!=null&&(this.parse.stoppedAt==
null||this.parse.stoppedAt>t)&&t<this.state.doc.length&&this.parse.stopAt(t);;){let s=this.parse.advance();if(s)if(this.
fragments=this.withoutTempSkipped(Ot.addTree(s,this.fragments,this.parse.stoppedAt!=null)),this.treeLen=(i=this.parse.stoppedAt)!==
null&&i!==void 0?i:this.state.doc.length,this.tree=s,this.parse=null,this.treeLen<(t??this.state.doc.length))this.parse=
this.startParse();else return!0;if(e())return!1}})}takeTree(){let e,t;this.parse&&(e=this.parse.parsedPos)>=this.treeLen&&
((this.parse.stoppedAt==null||this.parse.stoppedAt>e)&&this.parse.stopAt(e),this.withContext(()=>{for(;!(t=this.parse.advance());)
;}),this.treeLen=e,this.tree=t,this.fragments=this.withoutTempSkipped(Ot.addTree(this.tree,this.fragments,!0)),this.parse=
null)}withContext(e){let t=qi;qi=this;try{return e()}finally{qi=t}}withoutTempSkipped(e){for(let t;t=this.tempSkipped.pop();)
e=Rh(e,t.from,t.to);return e}changes(e,t){let{fragments:i,tree:s,treeLen:r,viewport:o,skipped:l}=this;if(this.takeTree(),
!e.empty){let a=[];if(e.iterChangedRanges((h,c,f,u)=>a.push({fromA:h,toA:c,fromB:f,toB:u})),i=Ot.applyChanges(i,a),s=U.empty,
r=0,o={from:e.mapPos(o.from,-1),to:e.mapPos(o.to,1)},this.skipped.length){l=[];for(let h of this.skipped){let c=e.mapPos(
h.from,1),f=e.mapPos(h.to,-1);c<f&&l.push({from:c,to:f})}}}return new n(this.parser,t,i,s,r,o,l,this.scheduleOn)}updateViewport(e){
if(this.viewport.from==e.from&&this.viewport.to==e.to)return!1;this.viewport=e;let t=this.skipped.length;for(let i=0;i<this.
skipped.length;i++){let{from:s,to:r}=this.skipped[i];s<e.to&&r>e.from&&(this.fragments=Rh(this.fragments,s,r),this.skipped.
splice(i--,1))}return this.skipped.length>=t?!1:(this.reset(),!0)}reset(){this.parse&&(this.takeTree(),this.parse=null)}skipUntilInView(e,t){
this.skipped.push({from:e,to:t})}static getSkippingParser(e){return new class extends Wi{createParse(t,i,s){let r=s[0].from,
o=s[s.length-1].to;return{parsedPos:r,advance(){let a=qi;if(a){for(let h of s)a.tempSkipped.push(h);e&&(a.scheduleOn=a.scheduleOn?
Promise.all([a.scheduleOn,e]):e)}return this.parsedPos=o,new U(fe.none,[],[],o-r)},stoppedAt:null,stopAt(){}}}}}isDone(e){
e=Math.min(e,this.state.doc.length);let t=this.fragments;return this.treeLen>=e&&t.length&&t[0].from==0&&t[0].to>=e}static get(){
return qi}};function Rh(n,e,t){return Ot.applyChanges(n,[{fromA:e,toA:t,fromB:e,toB:t}])}var $i=class n{constructor(e){this.
context=e,this.tree=e.tree}apply(e){if(!e.docChanged&&this.tree==this.context.tree)return this;let t=this.context.changes(
e.changes,e.state),i=this.context.treeLen==e.startState.doc.length?void 0:Math.max(e.changes.mapPos(this.context.treeLen),
t.viewport.to);return t.work(20,i)||t.takeTree(),new n(t)}static init(e){let t=Math.min(3e3,e.doc.length),i=Ki.create(e.
facet(li).parser,e,{from:0,to:t});return i.work(20,t)||i.takeTree(),new n(i)}};be.state=ee.define({create:$i.init,update(n,e){
for(let t of e.effects)if(t.is(be.setState))return t.value;return e.startState.facet(li)!=e.state.facet(li)?$i.init(e.state):
n.apply(e)}});var Fh=n=>{let e=setTimeout(()=>n(),500);return()=>clearTimeout(e)};typeof requestIdleCallback<"u"&&(Fh=n=>{
let e=-1,t=setTimeout(()=>{e=requestIdleCallback(n,{timeout:400})},100);return()=>e<0?clearTimeout(t):cancelIdleCallback(
e)});var xo=typeof navigator<"u"&&(!((bo=navigator.scheduling)===null||bo===void 0)&&bo.isInputPending)?()=>navigator.scheduling.
isInputPending():null,Cd=se.fromClass(class{constructor(e){this.view=e,this.working=null,this.workScheduled=0,this.chunkEnd=
-1,this.chunkBudget=-1,this.work=this.work.bind(this),this.scheduleWork()}update(e){let t=this.view.state.field(be.state).
context;(t.updateViewport(e.view.viewport)||this.view.viewport.to>t.treeLen)&&this.scheduleWork(),(e.docChanged||e.selectionSet)&&
(this.view.hasFocus&&(this.chunkBudget+=50),this.scheduleWork()),this.checkAsyncSchedule(t)}scheduleWork(){if(this.working)
return;let{state:e}=this.view,t=e.field(be.state);(t.tree!=t.context.tree||!t.context.isDone(e.doc.length))&&(this.working=
Fh(this.work))}work(e){this.working=null;let t=Date.now();if(this.chunkEnd<t&&(this.chunkEnd<0||this.view.hasFocus)&&(this.
chunkEnd=t+3e4,this.chunkBudget=3e3),this.chunkBudget<=0)return;let{state:i,viewport:{to:s}}=this.view,r=i.field(be.state);
if(r.tree==r.context.tree&&r.context.isDone(s+1e5))return;let o=Date.now()+Math.min(this.chunkBudget,100,e&&!xo?Math.max(
25,e.timeRemaining()-5):1e9),l=r.context.treeLen<s&&i.doc.length>s+1e3,a=r.context.work(()=>xo&&xo()||Date.now()>o,s+(l?
0:1e5));this.chunkBudget-=Date.now()-t,(a||this.chunkBudget<=0)&&(r.context.takeTree(),this.view.dispatch({effects:be.setState.
of(new $i(r.context))})),this.chunkBudget>0&&!(a&&!l)&&this.scheduleWork(),this.checkAsyncSchedule(r.context)}checkAsyncSchedule(e){
e.scheduleOn&&(this.workScheduled++,e.scheduleOn.then(()=>this.scheduleWork()).catch(t=>ge(this.view.state,t)).then(()=>this.
workScheduled--),e.scheduleOn=null)}destroy(){this.working&&this.working()}isWorking(){return!!(this.working||this.workScheduled>
0)}},{eventHandlers:{focus(){this.scheduleWork()}}}),li=C.define({combine(n){return n.length?n[0]:null},enables:n=>[be.state,
Cd,M.contentAttributes.compute([n],e=>{let t=e.facet(n);return t&&t.name?{"data-language":t.name}:{}})]});var Ad=C.define(),rs=C.define({combine:n=>{if(!n.length)return"  ";let e=n[0];if(!e||/\S/.test(e)||Array.from(e).some(t=>t!=
e[0]))throw new Error("Invalid indent unit: "+JSON.stringify(n[0]));return e}});function ft(n){let e=n.facet(rs);return e.
charCodeAt(0)==9?n.tabSize*e.length:e.length}function Gi(n,e){let t="",i=n.tabSize,s=n.facet(rs)[0];if(s=="	"){for(;e>=i;)
t+="	",e-=i;s=" "}for(let r=0;r<e;r++)t+=s;return t}function Oo(n,e){n instanceof V&&(n=new Et(n));for(let i of n.state.
facet(Ad)){let s=i(n,e);if(s!==void 0)return s}let t=Ie(n.state);return t.length>=e?Md(n,t,e):null}var Et=class{constructor(e,t={}){this.state=e,this.options=t,this.unit=ft(e)}lineAt(e,t=1){let i=this.state.doc.lineAt(e),
{simulateBreak:s,simulateDoubleBreak:r}=this.options;return s!=null&&s>=i.from&&s<=i.to?r&&s==e?{text:"",from:e}:(t<0?s<
e:s<=e)?{text:i.text.slice(s-i.from),from:s}:{text:i.text.slice(0,s-i.from),from:i.from}:i}textAfterPos(e,t=1){if(this.options.
simulateDoubleBreak&&e==this.options.simulateBreak)return"";let{text:i,from:s}=this.lineAt(e,t);return i.slice(e-s,Math.
min(i.length,e+100-s))}column(e,t=1){let{text:i,from:s}=this.lineAt(e,t),r=this.countColumn(i,e-s),o=this.options.overrideIndentation?
this.options.overrideIndentation(s):-1;return o>-1&&(r+=o-this.countColumn(i,i.search(/\S|$/))),r}countColumn(e,t=e.length){
return vt(e,this.state.tabSize,t)}lineIndent(e,t=1){let{text:i,from:s}=this.lineAt(e,t),r=this.options.overrideIndentation;
if(r){let o=r(s);if(o>-1)return o}return this.countColumn(i,i.search(/\S|$/))}get simulatedBreak(){return this.options.simulateBreak||
null}},Hh=new E;function Md(n,e,t){let i=e.resolveStack(t),s=e.resolveInner(t,-1).resolve(t,0).enterUnfinishedNodesBefore(
t);if(s!=i.node){let r=[];for(let o=s;o&&!(o.from<i.node.from||o.to>i.node.to||o.from==i.node.from&&o.type==i.node.type);o=
o.parent)r.push(o);for(let o=r.length-1;o>=0;o--)i={node:r[o],next:i}}return Wh(i,n,t)}function Wh(n,e,t){for(let i=n;i;i=
i.next){let s=Dd(i.node);if(s)return s(So.create(e,t,i))}return 0}function Td(n){return n.pos==n.options.simulateBreak&&
n.options.simulateDoubleBreak}function Dd(n){let e=n.type.prop(Hh);if(e)return e;let t=n.firstChild,i;if(t&&(i=t.type.prop(
E.closedBy))){let s=n.lastChild,r=s&&i.indexOf(s.name)>-1;return o=>Ed(o,!0,1,void 0,r&&!Td(o)?s.from:void 0)}return n.parent==
null?Od:null}function Od(){return 0}var So=class n extends Et{constructor(e,t,i){super(e.state,e.options),this.base=e,this.
pos=t,this.context=i}get node(){return this.context.node}static create(e,t,i){return new n(e,t,i)}get textAfter(){return this.
textAfterPos(this.pos)}get baseIndent(){return this.baseIndentFor(this.node)}baseIndentFor(e){let t=this.state.doc.lineAt(
e.from);for(;;){let i=e.resolve(t.from);for(;i.parent&&i.parent.from==i.from;)i=i.parent;if(Bd(i,e))break;t=this.state.doc.
lineAt(i.from)}return this.lineIndent(t.from)}continue(){return Wh(this.context.next,this.base,this.pos)}};function Bd(n,e){
for(let t=e;t;t=t.parent)if(n==t)return!0;return!1}function Ld(n){let e=n.node,t=e.childAfter(e.from),i=e.lastChild;if(!t)
return null;let s=n.options.simulateBreak,r=n.state.doc.lineAt(t.from),o=s==null||s<=r.from?r.to:Math.min(r.to,s);for(let l=t.
to;;){let a=e.childAfter(l);if(!a||a==i)return null;if(!a.type.isSkipped){if(a.from>=o)return null;let h=/^ */.exec(r.text.
slice(t.to-r.from))[0].length;return{from:t.from,to:t.to+h}}l=a.to}}function Ed(n,e,t,i,s){let r=n.textAfter,o=r.match(/^\s*/)[0].length,l=i&&r.slice(o,o+i.length)==i||s==n.pos+o,a=e?Ld(n):
null;return a?l?n.column(a.from):n.column(a.to):n.baseIndent+(l?0:n.unit*t)}var ai=class n{constructor(e,t){this.specs=e;let i;function s(l){let a=Se.newName();return(i||(i=Object.create(null)))["\
."+a]=l,a}let r=typeof t.all=="string"?t.all:t.all?s(t.all):void 0,o=t.scope;this.scope=o instanceof be?l=>l.prop(oi)==o.
data:o?l=>l==o:void 0,this.style=yo(e.map(l=>({tag:l.tag,class:l.class||s(Object.assign({},l,{tag:null}))})),{all:r}).style,
this.module=i?new Se(i):null,this.themeType=t.themeType}static define(e,t){return new n(e,t||{})}},Co=C.define(),Vh=C.define(
{combine(n){return n.length?[n[0]]:null}});function wo(n){let e=n.facet(Co);return e.length?e:n.facet(Vh)}function zh(n,e){
let t=[Rd],i;return n instanceof ai&&(n.module&&t.push(M.styleModule.of(n.module)),i=n.themeType),e?.fallback?t.push(Vh.
of(n)):i?t.push(Co.computeN([M.darkTheme],s=>s.facet(M.darkTheme)==(i=="dark")?[n]:[])):t.push(Co.of(n)),t}var Ao=class{constructor(e){this.markCache=Object.create(null),this.tree=Ie(e.state),this.decorations=this.buildDeco(e,wo(
e.state)),this.decoratedTo=e.viewport.to}update(e){let t=Ie(e.state),i=wo(e.state),s=i!=wo(e.startState),{viewport:r}=e.
view,o=e.changes.mapPos(this.decoratedTo,1);t.length<r.to&&!s&&t.type==this.tree.type&&o>=r.to?(this.decorations=this.decorations.
map(e.changes),this.decoratedTo=o):(t!=this.tree||e.viewportChanged||s)&&(this.tree=t,this.decorations=this.buildDeco(e.
view,i),this.decoratedTo=r.to)}buildDeco(e,t){if(!t||!this.tree.length)return L.none;let i=new ke;for(let{from:s,to:r}of e.
visibleRanges)Bh(this.tree,t,(o,l,a)=>{i.add(o,l,this.markCache[a]||(this.markCache[a]=L.mark({class:a})))},s,r);return i.
finish()}},Rd=nt.high(se.fromClass(Ao,{decorations:n=>n.decorations})),wm=ai.define([{tag:w.meta,color:"#404740"},{tag:w.
link,textDecoration:"underline"},{tag:w.heading,textDecoration:"underline",fontWeight:"bold"},{tag:w.emphasis,fontStyle:"\
italic"},{tag:w.strong,fontWeight:"bold"},{tag:w.strikethrough,textDecoration:"line-through"},{tag:w.keyword,color:"#708"},
{tag:[w.atom,w.bool,w.url,w.contentSeparator,w.labelName],color:"#219"},{tag:[w.literal,w.inserted],color:"#164"},{tag:[
w.string,w.deleted],color:"#a11"},{tag:[w.regexp,w.escape,w.special(w.string)],color:"#e40"},{tag:w.definition(w.variableName),
color:"#00f"},{tag:w.local(w.variableName),color:"#30a"},{tag:[w.typeName,w.namespace],color:"#085"},{tag:w.className,color:"\
#167"},{tag:[w.special(w.variableName),w.macroName],color:"#256"},{tag:w.definition(w.propertyName),color:"#00c"},{tag:w.
comment,color:"#940"},{tag:w.invalid,color:"#f00"}]);var Pd=1e4,Id="()[]{}";var Nd=new E;function Mo(n,e,t){let i=n.prop(e<0?E.openedBy:E.closedBy);if(i)return i;if(n.name.length==1){let s=t.indexOf(
n.name);if(s>-1&&s%2==(e<0?1:0))return[t[s+e]]}return null}function To(n){let e=n.type.prop(Nd);return e?e(n.node):n}function Rt(n,e,t,i={}){
let s=i.maxScanDistance||Pd,r=i.brackets||Id,o=Ie(n),l=o.resolveInner(e,t);for(let a=l;a;a=a.parent){let h=Mo(a.type,t,r);
if(h&&a.from<a.to){let c=To(a);if(c&&(t>0?e>=c.from&&e<c.to:e>c.from&&e<=c.to))return Fd(n,e,t,a,c,h,r)}}return Hd(n,e,t,
o,l.type,s,r)}function Fd(n,e,t,i,s,r,o){let l=i.parent,a={from:s.from,to:s.to},h=0,c=l?.cursor();if(c&&(t<0?c.childBefore(
i.from):c.childAfter(i.to)))do if(t<0?c.to<=i.from:c.from>=i.to){if(h==0&&r.indexOf(c.type.name)>-1&&c.from<c.to){let f=To(
c);return{start:a,end:f?{from:f.from,to:f.to}:void 0,matched:!0}}else if(Mo(c.type,t,o))h++;else if(Mo(c.type,-t,o)){if(h==
0){let f=To(c);return{start:a,end:f&&f.from<f.to?{from:f.from,to:f.to}:void 0,matched:!1}}h--}}while(t<0?c.prevSibling():
c.nextSibling());return{start:a,matched:!1}}function Hd(n,e,t,i,s,r,o){if(t<0?!e:e==n.doc.length)return null;let l=t<0?n.
sliceDoc(e-1,e):n.sliceDoc(e,e+1),a=o.indexOf(l);if(a<0||a%2==0!=t>0)return null;let h={from:t<0?e-1:e,to:t>0?e+1:e},c=n.
doc.iterRange(e,t>0?n.doc.length:0),f=0;for(let u=0;!c.next().done&&u<=r;){let d=c.value;t<0&&(u+=d.length);let p=e+u*t;
for(let g=t>0?0:d.length-1,m=t>0?d.length:-1;g!=m;g+=t){let y=o.indexOf(d[g]);if(!(y<0||i.resolveInner(p+g,1).type!=s))if(y%
2==0==t>0)f++;else{if(f==1)return{start:h,end:{from:p+g,to:p+g+1},matched:y>>1==a>>1};f--}}t>0&&(u+=d.length)}return c.done?
{start:h,matched:!1}:null}function Wd(n){return{name:n.name||"",token:n.token,blankLine:n.blankLine||(()=>{}),startState:n.
startState||(()=>!0),copyState:n.copyState||Vd,indent:n.indent||(()=>null),languageData:n.languageData||{},tokenTable:n.
tokenTable||Lo,mergeTokens:n.mergeTokens!==!1}}function Vd(n){if(typeof n!="object")return n;let e={};for(let t in n){let i=n[t];
e[t]=i instanceof Array?i.slice():i}return e}var Ph=new WeakMap,ns=class n extends be{constructor(e){let t=vd(e.languageData),
i=Wd(e),s,r=new class extends Wi{createParse(o,l,a){return new Do(s,o,l,a)}};super(t,r,[],e.name),this.topNode=$d(t,this),
s=this,this.streamParser=i,this.stateAfter=new E({perNode:!0}),this.tokenTable=e.tokenTable?new ss(i.tokenTable):Kd}static define(e){
return new n(e)}getIndent(e){let t,{overrideIndentation:i}=e.options;i&&(t=Ph.get(e.state),t!=null&&t<e.pos-1e4&&(t=void 0));
let s=Bo(this,e.node.tree,e.node.from,e.node.from,t??e.pos),r,o;if(s?(o=s.state,r=s.pos+1):(o=this.streamParser.startState(
e.unit),r=e.node.from),e.pos-r>1e4)return null;for(;r<e.pos;){let a=e.state.doc.lineAt(r),h=Math.min(e.pos,a.to);if(a.length){
let c=i?i(a.from):-1,f=new zi(a.text,e.state.tabSize,e.unit,c<0?void 0:c);for(;f.pos<h-a.from;)Kh(this.streamParser.token,
f,o)}else this.streamParser.blankLine(o,e.unit);if(h==e.pos)break;r=a.to+1}let l=e.lineAt(e.pos);return i&&t==null&&Ph.set(
e.state,l.from),this.streamParser.indent(o,/^\s*(.*)/.exec(l.text)[1],e)}get allowsNesting(){return!1}};function Bo(n,e,t,i,s){
let r=t>=i&&t+e.length<=s&&e.prop(n.stateAfter);if(r)return{state:n.streamParser.copyState(r),pos:t+e.length};for(let o=e.
children.length-1;o>=0;o--){let l=e.children[o],a=t+e.positions[o],h=l instanceof U&&a<s&&Bo(n,l,a,i,s);if(h)return h}return null}
function qh(n,e,t,i,s){if(s&&t<=0&&i>=e.length)return e;!s&&t==0&&e.type==n.topNode&&(s=!0);for(let r=e.children.length-
1;r>=0;r--){let o=e.positions[r],l=e.children[r],a;if(o<i&&l instanceof U){if(!(a=qh(n,l,t-o,i-o,s)))break;return s?new U(
e.type,e.children.slice(0,r).concat(a),e.positions.slice(0,r+1),o+a.length):a}}return null}function zd(n,e,t,i,s){for(let r of e){
let o=r.from+(r.openStart?25:0),l=r.to-(r.openEnd?25:0),a=o<=t&&l>t&&Bo(n,r.tree,0-r.offset,t,l),h;if(a&&a.pos<=i&&(h=qh(
n,r.tree,t+r.offset,a.pos+r.offset,!1)))return{state:a.state,tree:h}}return{state:n.streamParser.startState(s?ft(s):4),tree:U.
empty}}var Do=class{constructor(e,t,i,s){this.lang=e,this.input=t,this.fragments=i,this.ranges=s,this.stoppedAt=null,this.
chunks=[],this.chunkPos=[],this.chunk=[],this.chunkReused=void 0,this.rangeIndex=0,this.to=s[s.length-1].to;let r=Ki.get(),
o=s[0].from,{state:l,tree:a}=zd(e,i,o,this.to,r?.state);this.state=l,this.parsedPos=this.chunkStart=o+a.length;for(let h=0;h<
a.children.length;h++)this.chunks.push(a.children[h]),this.chunkPos.push(a.positions[h]);r&&this.parsedPos<r.viewport.from-
1e5&&s.some(h=>h.from<=r.viewport.from&&h.to>=r.viewport.from)&&(this.state=this.lang.streamParser.startState(ft(r.state)),
r.skipUntilInView(this.parsedPos,r.viewport.from),this.parsedPos=r.viewport.from),this.moveRangeIndex()}advance(){let e=Ki.
get(),t=this.stoppedAt==null?this.to:Math.min(this.to,this.stoppedAt),i=Math.min(t,this.chunkStart+512);for(e&&(i=Math.min(
i,e.viewport.to));this.parsedPos<i;)this.parseLine(e);return this.chunkStart<this.parsedPos&&this.finishChunk(),this.parsedPos>=
t?this.finish():e&&this.parsedPos>=e.viewport.to?(e.skipUntilInView(this.parsedPos,t),this.finish()):null}stopAt(e){this.
stoppedAt=e}lineAfter(e){let t=this.input.chunk(e);if(this.input.lineChunks)t==`
`&&(t="");else{let i=t.indexOf(`
`);i>-1&&(t=t.slice(0,i))}return e+t.length<=this.to?t:t.slice(0,this.to-e)}nextLine(){let e=this.parsedPos,t=this.lineAfter(
e),i=e+t.length;for(let s=this.rangeIndex;;){let r=this.ranges[s].to;if(r>=i||(t=t.slice(0,r-(i-t.length)),s++,s==this.ranges.
length))break;let o=this.ranges[s].from,l=this.lineAfter(o);t+=l,i=o+l.length}return{line:t,end:i}}skipGapsTo(e,t,i){for(;;){
let s=this.ranges[this.rangeIndex].to,r=e+t;if(i>0?s>r:s>=r)break;let o=this.ranges[++this.rangeIndex].from;t+=o-s}return t}moveRangeIndex(){
for(;this.ranges[this.rangeIndex].to<this.parsedPos;)this.rangeIndex++}emitToken(e,t,i,s){let r=4;if(this.ranges.length>
1){s=this.skipGapsTo(t,s,1),t+=s;let l=this.chunk.length;s=this.skipGapsTo(i,s,-1),i+=s,r+=this.chunk.length-l}let o=this.
chunk.length-4;return this.lang.streamParser.mergeTokens&&r==4&&o>=0&&this.chunk[o]==e&&this.chunk[o+2]==t?this.chunk[o+
2]=i:this.chunk.push(e,t,i,r),s}parseLine(e){let{line:t,end:i}=this.nextLine(),s=0,{streamParser:r}=this.lang,o=new zi(t,
e?e.state.tabSize:4,e?ft(e.state):2);if(o.eol())r.blankLine(this.state,o.indentUnit);else for(;!o.eol();){let l=Kh(r.token,
o,this.state);if(l&&(s=this.emitToken(this.lang.tokenTable.resolve(l),this.parsedPos+o.start,this.parsedPos+o.pos,s)),o.
start>1e4)break}this.parsedPos=i,this.moveRangeIndex(),this.parsedPos<this.to&&this.parsedPos++}finishChunk(){let e=U.build(
{buffer:this.chunk,start:this.chunkStart,length:this.parsedPos-this.chunkStart,nodeSet:qd,topID:0,maxBufferLength:512,reused:this.
chunkReused});e=new U(e.type,e.children,e.positions,e.length,[[this.lang.stateAfter,this.lang.streamParser.copyState(this.
state)]]),this.chunks.push(e),this.chunkPos.push(this.chunkStart-this.ranges[0].from),this.chunk=[],this.chunkReused=void 0,
this.chunkStart=this.parsedPos}finish(){return new U(this.lang.topNode,this.chunks,this.chunkPos,this.parsedPos-this.ranges[0].
from).balance()}};function Kh(n,e,t){e.start=e.pos;for(let i=0;i<10;i++){let s=n(e,t);if(e.pos>e.start)return s}throw new Error(
"Stream parser failed to advance stream.")}var Lo=Object.create(null),ji=[fe.none],qd=new Jn(ji),Ih=[],Nh=Object.create(
null),$h=Object.create(null);for(let[n,e]of[["variable","variableName"],["variable-2","variableName.special"],["string-2",
"string.special"],["def","variableName.definition"],["tag","tagName"],["attribute","attributeName"],["type","typeName"],
["builtin","variableName.standard"],["qualifier","modifier"],["error","invalid"],["header","heading"],["property","prope\
rtyName"]])$h[n]=jh(Lo,e);var ss=class{constructor(e){this.extra=e,this.table=Object.assign(Object.create(null),$h)}resolve(e){
return e?this.table[e]||(this.table[e]=jh(this.extra,e)):0}},Kd=new ss(Lo);function ko(n,e){Ih.indexOf(n)>-1||(Ih.push(n),
console.warn(e))}function jh(n,e){let t=[];for(let l of e.split(" ")){let a=[];for(let h of l.split(".")){let c=n[h]||w[h];
c?typeof c=="function"?a.length?a=a.map(c):ko(h,`Modifier ${h} used at start of tag`):a.length?ko(h,`Tag ${h} used as mo\
difier`):a=Array.isArray(c)?c:[c]:ko(h,`Unknown highlighting tag ${h}`)}for(let h of a)t.push(h)}if(!t.length)return 0;let i=e.
replace(/ /g,"_"),s=i+" "+t.map(l=>l.id),r=Nh[s];if(r)return r.id;let o=Nh[s]=fe.define({id:ji.length,name:i,props:[Dh({
[i]:t})]});return ji.push(o),o.id}function $d(n,e){let t=fe.define({id:ji.length,name:"Document",props:[oi.add(()=>n),Hh.
add(()=>i=>e.getIndent(i))],top:!0});return ji.push(t),t}var km={rtl:L.mark({class:"cm-iso",inclusive:!0,attributes:{dir:"rtl"},bidiIsolate:K.RTL}),ltr:L.mark({class:"cm-iso",inclusive:!0,
attributes:{dir:"ltr"},bidiIsolate:K.LTR}),auto:L.mark({class:"cm-iso",inclusive:!0,attributes:{dir:"auto"},bidiIsolate:null})};var jd=n=>{let{state:e}=n,t=e.doc.lineAt(e.selection.main.from),i=Ho(n.state,t.from);return i.line?Gd(n):i.block?_d(n):!1};
function Fo(n,e){return({state:t,dispatch:i})=>{if(t.readOnly)return!1;let s=n(e,t);return s?(i(t.update(s)),!0):!1}}var Gd=Fo(
Jd,0);var Ud=Fo(ec,0);var _d=Fo((n,e)=>ec(n,e,Xd(e)),0);function Ho(n,e){let t=n.languageDataAt("commentTokens",e,1);return t.length?t[0]:{}}var Ui=50;
function Yd(n,{open:e,close:t},i,s){let r=n.sliceDoc(i-Ui,i),o=n.sliceDoc(s,s+Ui),l=/\s*$/.exec(r)[0].length,a=/^\s*/.exec(
o)[0].length,h=r.length-l;if(r.slice(h-e.length,h)==e&&o.slice(a,a+t.length)==t)return{open:{pos:i-l,margin:l&&1},close:{
pos:s+a,margin:a&&1}};let c,f;s-i<=2*Ui?c=f=n.sliceDoc(i,s):(c=n.sliceDoc(i,i+Ui),f=n.sliceDoc(s-Ui,s));let u=/^\s*/.exec(
c)[0].length,d=/\s*$/.exec(f)[0].length,p=f.length-d-t.length;return c.slice(u,u+e.length)==e&&f.slice(p,p+t.length)==t?
{open:{pos:i+u+e.length,margin:/\s/.test(c.charAt(u+e.length))?1:0},close:{pos:s-d-t.length,margin:/\s/.test(f.charAt(p-
1))?1:0}}:null}function Xd(n){let e=[];for(let t of n.selection.ranges){let i=n.doc.lineAt(t.from),s=t.to<=i.to?i:n.doc.
lineAt(t.to);s.from>i.from&&s.from==t.to&&(s=t.to==i.to+1?i:n.doc.lineAt(t.to-1));let r=e.length-1;r>=0&&e[r].to>i.from?
e[r].to=s.to:e.push({from:i.from+/^\s*/.exec(i.text)[0].length,to:s.to})}return e}function ec(n,e,t=e.selection.ranges){
let i=t.map(r=>Ho(e,r.from).block);if(!i.every(r=>r))return null;let s=t.map((r,o)=>Yd(e,i[o],r.from,r.to));if(n!=2&&!s.
every(r=>r))return{changes:e.changes(t.map((r,o)=>s[o]?[]:[{from:r.from,insert:i[o].open+" "},{from:r.to,insert:" "+i[o].
close}]))};if(n!=1&&s.some(r=>r)){let r=[];for(let o=0,l;o<s.length;o++)if(l=s[o]){let a=i[o],{open:h,close:c}=l;r.push(
{from:h.pos-a.open.length,to:h.pos+h.margin},{from:c.pos-c.margin,to:c.pos+a.close.length})}return{changes:r}}return null}
function Jd(n,e,t=e.selection.ranges){let i=[],s=-1;e:for(let{from:r,to:o}of t){let l=i.length,a=1e9,h;for(let c=r;c<=o;){
let f=e.doc.lineAt(c);if(h==null&&(h=Ho(e,f.from).line,!h))continue e;if(f.from>s&&(r==o||o>f.from)){s=f.from;let u=/^\s*/.
exec(f.text)[0].length,d=u==f.length,p=f.text.slice(u,u+h.length)==h?u:-1;u<f.text.length&&u<a&&(a=u),i.push({line:f,comment:p,
token:h,indent:u,empty:d,single:!1})}c=f.to+1}if(a<1e9)for(let c=l;c<i.length;c++)i[c].indent<i[c].line.text.length&&(i[c].
indent=a);i.length==l+1&&(i[l].single=!0)}if(n!=2&&i.some(r=>r.comment<0&&(!r.empty||r.single))){let r=[];for(let{line:l,
token:a,indent:h,empty:c,single:f}of i)(f||!c)&&r.push({from:l.from+h,insert:a+" "});let o=e.changes(r);return{changes:o,
selection:e.selection.map(o,1)}}else if(n!=1&&i.some(r=>r.comment>=0)){let r=[];for(let{line:o,comment:l,token:a}of i)if(l>=
0){let h=o.from+l,c=h+a.length;o.text[c-o.from]==" "&&c++,r.push({from:h,to:c})}return{changes:r}}return null}var Ro=ve.
define(),Qd=ve.define(),Zd=C.define(),tc=C.define({combine(n){return Be(n,{minDepth:100,newGroupDelay:500,joinToEvent:(e,t)=>t},
{minDepth:Math.max,newGroupDelay:Math.min,joinToEvent:(e,t)=>(i,s)=>e(i,s)||t(i,s)})}}),ic=ee.define({create(){return Pt.
empty},update(n,e){let t=e.state.facet(tc),i=e.annotation(Ro);if(i){let a=Ne.fromTransaction(e,i.selection),h=i.side,c=h==
0?n.undone:n.done;return a?c=ls(c,c.length,t.minDepth,a):c=oc(c,e.startState.selection),new Pt(h==0?i.rest:c,h==0?c:i.rest)}
let s=e.annotation(Qd);if((s=="full"||s=="before")&&(n=n.isolate()),e.annotation(X.addToHistory)===!1)return e.changes.empty?
n:n.addMapping(e.changes.desc);let r=Ne.fromTransaction(e),o=e.annotation(X.time),l=e.annotation(X.userEvent);return r?n=
n.addChanges(r,o,l,t,e):e.selection&&(n=n.addSelection(e.startState.selection,o,l,t.newGroupDelay)),(s=="full"||s=="afte\
r")&&(n=n.isolate()),n},toJSON(n){return{done:n.done.map(e=>e.toJSON()),undone:n.undone.map(e=>e.toJSON())}},fromJSON(n){
return new Pt(n.done.map(Ne.fromJSON),n.undone.map(Ne.fromJSON))}});function nc(n={}){return[ic,tc.of(n),M.domEventHandlers(
{beforeinput(e,t){let i=e.inputType=="historyUndo"?sc:e.inputType=="historyRedo"?Po:null;return i?(e.preventDefault(),i(
t)):!1}})]}function as(n,e){return function({state:t,dispatch:i}){if(!e&&t.readOnly)return!1;let s=t.field(ic,!1);if(!s)return!1;let r=s.
pop(n,t,e);return r?(i(r),!0):!1}}var sc=as(0,!1),Po=as(1,!1),ep=as(0,!0),tp=as(1,!0);var Ne=class n{constructor(e,t,i,s,r){this.changes=e,this.effects=t,this.mapped=i,this.startSelection=s,this.selectionsAfter=
r}setSelAfter(e){return new n(this.changes,this.effects,this.mapped,this.startSelection,e)}toJSON(){var e,t,i;return{changes:(e=
this.changes)===null||e===void 0?void 0:e.toJSON(),mapped:(t=this.mapped)===null||t===void 0?void 0:t.toJSON(),startSelection:(i=
this.startSelection)===null||i===void 0?void 0:i.toJSON(),selectionsAfter:this.selectionsAfter.map(s=>s.toJSON())}}static fromJSON(e){
return new n(e.changes&&ae.fromJSON(e.changes),[],e.mapped&&Xe.fromJSON(e.mapped),e.startSelection&&x.fromJSON(e.startSelection),
e.selectionsAfter.map(x.fromJSON))}static fromTransaction(e,t){let i=Te;for(let s of e.startState.facet(Zd)){let r=s(e);
r.length&&(i=i.concat(r))}return!i.length&&e.changes.empty?null:new n(e.changes.invert(e.startState.doc),i,void 0,t||e.startState.
selection,Te)}static selection(e){return new n(void 0,Te,void 0,void 0,e)}};function ls(n,e,t,i){let s=e+1>t+20?e-t-1:0,
r=n.slice(s,e);return r.push(i),r}function ip(n,e){let t=[],i=!1;return n.iterChangedRanges((s,r)=>t.push(s,r)),e.iterChangedRanges(
(s,r,o,l)=>{for(let a=0;a<t.length;){let h=t[a++],c=t[a++];l>=h&&o<=c&&(i=!0)}}),i}function np(n,e){return n.ranges.length==
e.ranges.length&&n.ranges.filter((t,i)=>t.empty!=e.ranges[i].empty).length===0}function rc(n,e){return n.length?e.length?
n.concat(e):n:e}var Te=[],sp=200;function oc(n,e){if(n.length){let t=n[n.length-1],i=t.selectionsAfter.slice(Math.max(0,
t.selectionsAfter.length-sp));return i.length&&i[i.length-1].eq(e)?n:(i.push(e),ls(n,n.length-1,1e9,t.setSelAfter(i)))}else
return[Ne.selection([e])]}function rp(n){let e=n[n.length-1],t=n.slice();return t[n.length-1]=e.setSelAfter(e.selectionsAfter.
slice(0,e.selectionsAfter.length-1)),t}function Eo(n,e){if(!n.length)return n;let t=n.length,i=Te;for(;t;){let s=op(n[t-
1],e,i);if(s.changes&&!s.changes.empty||s.effects.length){let r=n.slice(0,t);return r[t-1]=s,r}else e=s.mapped,t--,i=s.selectionsAfter}
return i.length?[Ne.selection(i)]:Te}function op(n,e,t){let i=rc(n.selectionsAfter.length?n.selectionsAfter.map(l=>l.map(
e)):Te,t);if(!n.changes)return Ne.selection(i);let s=n.changes.map(e),r=e.mapDesc(n.changes,!0),o=n.mapped?n.mapped.composeDesc(
r):r;return new Ne(s,R.mapEffects(n.effects,e),o,n.startSelection.map(r),i)}var lp=/^(input\.type|delete)($|\.)/,Pt=class n{constructor(e,t,i=0,s=void 0){
this.done=e,this.undone=t,this.prevTime=i,this.prevUserEvent=s}isolate(){return this.prevTime?new n(this.done,this.undone):
this}addChanges(e,t,i,s,r){let o=this.done,l=o[o.length-1];return l&&l.changes&&!l.changes.empty&&e.changes&&(!i||lp.test(
i))&&(!l.selectionsAfter.length&&t-this.prevTime<s.newGroupDelay&&s.joinToEvent(r,ip(l.changes,e.changes))||i=="input.ty\
pe.compose")?o=ls(o,o.length-1,s.minDepth,new Ne(e.changes.compose(l.changes),rc(R.mapEffects(e.effects,l.changes),l.effects),
l.mapped,l.startSelection,Te)):o=ls(o,o.length,s.minDepth,e),new n(o,Te,t,i)}addSelection(e,t,i,s){let r=this.done.length?
this.done[this.done.length-1].selectionsAfter:Te;return r.length>0&&t-this.prevTime<s&&i==this.prevUserEvent&&i&&/^select($|\.)/.
test(i)&&np(r[r.length-1],e)?this:new n(oc(this.done,e),this.undone,t,i)}addMapping(e){return new n(Eo(this.done,e),Eo(this.
undone,e),this.prevTime,this.prevUserEvent)}pop(e,t,i){let s=e==0?this.done:this.undone;if(s.length==0)return null;let r=s[s.
length-1],o=r.selectionsAfter[0]||(r.startSelection?r.startSelection.map(r.changes.invertedDesc,1):t.selection);if(i&&r.
selectionsAfter.length)return t.update({selection:r.selectionsAfter[r.selectionsAfter.length-1],annotations:Ro.of({side:e,
rest:rp(s),selection:o}),userEvent:e==0?"select.undo":"select.redo",scrollIntoView:!0});if(r.changes){let l=s.length==1?
Te:s.slice(0,s.length-1);return r.mapped&&(l=Eo(l,r.mapped)),t.update({changes:r.changes,selection:r.startSelection,effects:r.
effects,annotations:Ro.of({side:e,rest:l,selection:o}),filter:!1,userEvent:e==0?"undo":"redo",scrollIntoView:!0})}else return null}};
Pt.empty=new Pt(Te,Te);var lc=[{key:"Mod-z",run:sc,preventDefault:!0},{key:"Mod-y",mac:"Mod-Shift-z",run:Po,preventDefault:!0},
{linux:"Ctrl-Shift-z",run:Po,preventDefault:!0},{key:"Mod-u",run:ep,preventDefault:!0},{key:"Alt-u",mac:"Mod-Shift-u",run:tp,
preventDefault:!0}];function hi(n,e){return x.create(n.ranges.map(e),n.mainIndex)}function Fe(n,e){return n.update({selection:e,
scrollIntoView:!0,userEvent:"select"})}function He({state:n,dispatch:e},t){let i=hi(n.selection,t);return i.eq(n.selection,
!0)?!1:(e(Fe(n,i)),!0)}function hs(n,e){return x.cursor(e?n.to:n.from)}function ac(n,e){return He(n,t=>t.empty?n.moveByChar(
t,e):hs(t,e))}function re(n){return n.textDirectionAt(n.state.selection.main.head)==K.LTR}var hc=n=>ac(n,!re(n)),cc=n=>ac(
n,re(n));function fc(n,e){return He(n,t=>t.empty?n.moveByGroup(t,e):hs(t,e))}var ap=n=>fc(n,!re(n)),hp=n=>fc(n,re(n));var Om=typeof Intl<"u"&&Intl.Segmenter?new Intl.Segmenter(void 0,{granularity:"word"}):null;function cp(n,e,t){if(e.type.prop(t))return!0;let i=e.to-e.from;return i&&(i>2||/[^\s,.;:]/.test(n.sliceDoc(e.from,e.to)))||
e.firstChild}function cs(n,e,t){let i=Ie(n).resolveInner(e.head),s=t?E.closedBy:E.openedBy;for(let a=e.head;;){let h=t?i.
childAfter(a):i.childBefore(a);if(!h)break;cp(n,h,s)?i=h:a=t?h.to:h.from}let r=i.type.prop(s),o,l;return r&&(o=t?Rt(n,i.
from,1):Rt(n,i.to,-1))&&o.matched?l=t?o.end.to:o.end.from:l=t?i.to:i.from,x.cursor(l,t?-1:1)}var fp=n=>He(n,e=>cs(n.state,
e,!re(n))),up=n=>He(n,e=>cs(n.state,e,re(n)));function uc(n,e){return He(n,t=>{if(!t.empty)return hs(t,e);let i=n.moveVertically(
t,e);return i.head!=t.head?i:n.moveToLineBoundary(t,e)})}var dc=n=>uc(n,!1),pc=n=>uc(n,!0);function gc(n){let e=n.scrollDOM.
clientHeight<n.scrollDOM.scrollHeight-2,t=0,i=0,s;if(e){for(let r of n.state.facet(M.scrollMargins)){let o=r(n);o?.top&&
(t=Math.max(o?.top,t)),o?.bottom&&(i=Math.max(o?.bottom,i))}s=n.scrollDOM.clientHeight-t-i}else s=(n.dom.ownerDocument.defaultView||
window).innerHeight;return{marginTop:t,marginBottom:i,selfScroll:e,height:Math.max(n.defaultLineHeight,s-5)}}function mc(n,e){
let t=gc(n),{state:i}=n,s=hi(i.selection,o=>o.empty?n.moveVertically(o,e,t.height):hs(o,e));if(s.eq(i.selection))return!1;
let r;if(t.selfScroll){let o=n.coordsAtPos(i.selection.main.head),l=n.scrollDOM.getBoundingClientRect(),a=l.top+t.marginTop,
h=l.bottom-t.marginBottom;o&&o.top>a&&o.bottom<h&&(r=M.scrollIntoView(s.main.head,{y:"start",yMargin:o.top-a}))}return n.
dispatch(Fe(i,s),{effects:r}),!0}var Gh=n=>mc(n,!1),Io=n=>mc(n,!0);function ut(n,e,t){let i=n.lineBlockAt(e.head),s=n.moveToLineBoundary(
e,t);if(s.head==e.head&&s.head!=(t?i.to:i.from)&&(s=n.moveToLineBoundary(e,t,!1)),!t&&s.head==i.from&&i.length){let r=/^\s*/.
exec(n.state.sliceDoc(i.from,Math.min(i.from+100,i.to)))[0].length;r&&e.head!=i.from+r&&(s=x.cursor(i.from+r))}return s}
var dp=n=>He(n,e=>ut(n,e,!0)),pp=n=>He(n,e=>ut(n,e,!1)),gp=n=>He(n,e=>ut(n,e,!re(n))),mp=n=>He(n,e=>ut(n,e,re(n))),yp=n=>He(
n,e=>n.moveToLineBoundary(e,!1,!1)),bp=n=>He(n,e=>n.moveToLineBoundary(e,!0,!1));function xp(n,e,t){let i=!1,s=hi(n.selection,
r=>{let o=Rt(n,r.head,-1)||Rt(n,r.head,1)||r.head>0&&Rt(n,r.head-1,1)||r.head<n.doc.length&&Rt(n,r.head+1,-1);if(!o||!o.
end)return r;i=!0;let l=o.start.from==r.head?o.end.to:o.end.from;return t?x.range(r.anchor,l):x.cursor(l)});return i?(e(
Fe(n,s)),!0):!1}var wp=({state:n,dispatch:e})=>xp(n,e,!1);function De(n,e,t){let i=hi(n.state.selection,s=>{s.undirectional&&s.head>=s.anchor!=e&&(s=x.range(s.head,s.anchor));let r=t(
s);return x.range(s.anchor,r.head,r.goalColumn,r.bidiLevel||void 0,r.assoc)});return i.eq(n.state.selection)?!1:(n.dispatch(
Fe(n.state,i)),!0)}function yc(n,e){return De(n,e,t=>n.moveByChar(t,e))}var bc=n=>yc(n,!re(n)),xc=n=>yc(n,re(n));function wc(n,e){return De(n,e,t=>n.moveByGroup(t,e))}var kp=n=>wc(n,!re(n)),vp=n=>wc(n,re(n));var Sp=n=>{let e=!re(n);return De(n,e,t=>cs(n.state,t,e))},Cp=n=>{let e=re(n);return De(n,e,t=>cs(n.state,t,e))};function kc(n,e){
return De(n,e,t=>n.moveVertically(t,e))}var vc=n=>kc(n,!1),Sc=n=>kc(n,!0);function Cc(n,e){return De(n,e,t=>n.moveVertically(
t,e,gc(n).height))}var Uh=n=>Cc(n,!1),_h=n=>Cc(n,!0),Ap=n=>De(n,!0,e=>ut(n,e,!0)),Mp=n=>De(n,!1,e=>ut(n,e,!1)),Tp=n=>{let e=!re(
n);return De(n,e,t=>ut(n,t,e))},Dp=n=>{let e=re(n);return De(n,e,t=>ut(n,t,e))},Op=n=>De(n,!1,e=>x.cursor(n.lineBlockAt(
e.head).from)),Bp=n=>De(n,!0,e=>x.cursor(n.lineBlockAt(e.head).to)),Yh=({state:n,dispatch:e})=>(e(Fe(n,{anchor:0})),!0),
Xh=({state:n,dispatch:e})=>(e(Fe(n,{anchor:n.doc.length})),!0),Jh=({state:n,dispatch:e})=>(e(Fe(n,{anchor:n.selection.main.
anchor,head:0})),!0),Qh=({state:n,dispatch:e})=>(e(Fe(n,{anchor:n.selection.main.anchor,head:n.doc.length})),!0),Lp=({state:n,
dispatch:e})=>(e(n.update({selection:{anchor:0,head:n.doc.length},userEvent:"select"})),!0),Ep=({state:n,dispatch:e})=>{
let t=fs(n).map(({from:i,to:s})=>x.undirectionalRange(i,Math.min(s+1,n.doc.length)));return e(n.update({selection:x.create(
t),userEvent:"select"})),!0},Rp=({state:n,dispatch:e})=>{let t=hi(n.selection,i=>{let s=Ie(n),r=s.resolveStack(i.from,1);
if(i.empty){let o=s.resolveStack(i.from,-1);o.node.from>=r.node.from&&o.node.to<=r.node.to&&(r=o)}for(let o=r;o;o=o.next){
let{node:l}=o;if((l.from<i.from&&l.to>=i.to||l.to>i.to&&l.from<=i.from)&&o.next)return x.undirectionalRange(l.from,l.to)}
return i});return t.eq(n.selection)?!1:(e(Fe(n,t)),!0)};function Ac(n,e){let{state:t}=n,i=t.selection,s=t.selection.ranges.
slice();for(let r of t.selection.ranges){let o=t.doc.lineAt(r.head);if(e?o.to<n.state.doc.length:o.from>0)for(let l=r;;){
let a=n.moveVertically(l,e);if(a.head<o.from||a.head>o.to){s.some(h=>h.head==a.head)||s.push(a);break}else{if(a.head==l.
head)break;l=a}}}return s.length==i.ranges.length?!1:(n.dispatch(Fe(t,x.create(s,s.length-1))),!0)}var Pp=n=>Ac(n,!1),Ip=n=>Ac(
n,!0),Np=({state:n,dispatch:e})=>{let t=n.selection,i=null;return t.ranges.length>1?i=x.create([t.main]):t.main.empty||(i=
x.create([x.cursor(t.main.head)])),i?(e(Fe(n,i)),!0):!1};function _i(n,e){if(n.state.readOnly)return!1;let t="delete.sel\
ection",{state:i}=n,s=i.changeByRange(r=>{let{from:o,to:l}=r;if(o==l){let a=e(r);a<o?(t="delete.backward",a=os(n,a,!1)):
a>o&&(t="delete.forward",a=os(n,a,!0)),o=Math.min(o,a),l=Math.max(l,a)}else o=os(n,o,!1),l=os(n,l,!0);return o==l?{range:r}:
{changes:{from:o,to:l},range:x.cursor(o,o<r.head?-1:1)}});return s.changes.empty?!1:(n.dispatch(i.update(s,{scrollIntoView:!0,
userEvent:t,effects:t=="delete.selection"?M.announce.of(i.phrase("Selection deleted")):void 0})),!0)}function os(n,e,t){
if(n instanceof M)for(let i of n.state.facet(M.atomicRanges).map(s=>s(n)))i.between(e,e,(s,r)=>{s<e&&r>e&&(e=t?r:s)});return e}
var Mc=(n,e,t)=>_i(n,i=>{let s=i.from,{state:r}=n,o=r.doc.lineAt(s),l,a;if(t&&!e&&s>o.from&&s<o.from+200&&!/[^ \t]/.test(
l=o.text.slice(0,s-o.from))){if(l[l.length-1]=="	")return s-1;let h=vt(l,r.tabSize),c=h%ft(r)||ft(r);for(let f=0;f<c&&l[l.
length-1-f]==" ";f++)s--;a=s}else a=Q(o.text,s-o.from,e,e)+o.from,a==s&&o.number!=(e?r.doc.lines:1)?a+=e?1:-1:!e&&/[\ufe00-\ufe0f]/.
test(o.text.slice(a-o.from,s-o.from))&&(a=Q(o.text,a-o.from,!1,!1)+o.from);return a}),No=n=>Mc(n,!1,!0);var Tc=n=>Mc(n,!0,!1),Dc=(n,e)=>_i(n,t=>{let i=t.head,{state:s}=n,r=s.doc.lineAt(i),o=s.charCategorizer(i);for(let l=null;;){
if(i==(e?r.to:r.from)){i==t.head&&r.number!=(e?s.doc.lines:1)&&(i+=e?1:-1);break}let a=Q(r.text,i-r.from,e)+r.from,h=r.text.
slice(Math.min(i,a)-r.from,Math.max(i,a)-r.from),c=o(h);if(l!=null&&c!=l)break;(h!=" "||i!=t.head)&&(l=c),i=a}return i}),
Oc=n=>Dc(n,!1),Fp=n=>Dc(n,!0);var Hp=n=>_i(n,e=>{let t=n.lineBlockAt(e.head).to;return e.head<t?t:Math.min(n.state.doc.length,e.head+1)});var Wp=n=>_i(n,e=>{let t=n.moveToLineBoundary(e,!1).head;return e.head>t?t:Math.max(0,e.head-1)}),Vp=n=>_i(n,e=>{let t=n.
moveToLineBoundary(e,!0).head;return e.head<t?t:Math.min(n.state.doc.length,e.head+1)});var zp=({state:n,dispatch:e})=>{if(n.readOnly)return!1;let t=n.changeByRange(i=>({changes:{from:i.from,to:i.to,insert:P.
of(["",""])},range:x.cursor(i.from)}));return e(n.update(t,{scrollIntoView:!0,userEvent:"input"})),!0},qp=({state:n,dispatch:e})=>{
if(n.readOnly)return!1;let t=n.changeByRange(i=>{if(!i.empty||i.from==0||i.from==n.doc.length)return{range:i};let s=i.from,
r=n.doc.lineAt(s),o=s==r.from?s-1:Q(r.text,s-r.from,!1)+r.from,l=s==r.to?s+1:Q(r.text,s-r.from,!0)+r.from;return{changes:{
from:o,to:l,insert:n.doc.slice(s,l).append(n.doc.slice(o,s))},range:x.cursor(l)}});return t.changes.empty?!1:(e(n.update(
t,{scrollIntoView:!0,userEvent:"move.character"})),!0)};function fs(n){let e=[],t=-1;for(let i of n.selection.ranges){let s=n.
doc.lineAt(i.from),r=n.doc.lineAt(i.to);if(!i.empty&&i.to==r.from&&(r=n.doc.lineAt(i.to-1)),t>=s.number){let o=e[e.length-
1];o.to=r.to,o.ranges.push(i)}else e.push({from:s.from,to:r.to,ranges:[i]});t=r.number+1}return e}function Bc(n,e,t){if(n.
readOnly)return!1;let i=[],s=[];for(let r of fs(n)){if(t?r.to==n.doc.length:r.from==0)continue;let o=n.doc.lineAt(t?r.to+
1:r.from-1),l=o.length+1;if(t){i.push({from:r.to,to:o.to},{from:r.from,insert:o.text+n.lineBreak});for(let a of r.ranges)
s.push(x.range(Math.min(n.doc.length,a.anchor+l),Math.min(n.doc.length,a.head+l)))}else{i.push({from:o.from,to:r.from},{
from:r.to,insert:n.lineBreak+o.text});for(let a of r.ranges)s.push(x.range(a.anchor-l,a.head-l))}}return i.length?(e(n.update(
{changes:i,scrollIntoView:!0,selection:x.create(s,n.selection.mainIndex),userEvent:"move.line"})),!0):!1}var Kp=({state:n,
dispatch:e})=>Bc(n,e,!1),$p=({state:n,dispatch:e})=>Bc(n,e,!0);function Lc(n,e,t){if(n.readOnly)return!1;let i=[];for(let r of fs(
n))t?i.push({from:r.from,insert:n.doc.slice(r.from,r.to)+n.lineBreak}):i.push({from:r.to,insert:n.lineBreak+n.doc.slice(
r.from,r.to)});let s=n.changes(i);return e(n.update({changes:s,selection:n.selection.map(s,t?1:-1),scrollIntoView:!0,userEvent:"\
input.copyline"})),!0}var jp=({state:n,dispatch:e})=>Lc(n,e,!1),Gp=({state:n,dispatch:e})=>Lc(n,e,!0),Up=n=>{if(n.state.
readOnly)return!1;let{state:e}=n,t=e.changes(fs(e).map(({from:s,to:r})=>(s>0?s--:r<e.doc.length&&r++,{from:s,to:r}))),i=hi(
e.selection,s=>{let r;if(n.lineWrapping){let o=n.lineBlockAt(s.head),l=n.coordsAtPos(s.head,s.assoc||1);l&&(r=o.bottom+n.
documentTop-l.bottom+n.defaultLineHeight/2)}return n.moveVertically(s,!0,r)}).map(t);return n.dispatch({changes:t,selection:i,
scrollIntoView:!0,userEvent:"delete.line"}),!0};function _p(n,e){if(/\(\)|\[\]|\{\}/.test(n.sliceDoc(e-1,e+1)))return{from:e,to:e};let t=Ie(n).resolveInner(e),i=t.childBefore(
e),s=t.childAfter(e),r;return i&&s&&i.to<=e&&s.from>=e&&(r=i.type.prop(E.closedBy))&&r.indexOf(s.name)>-1&&n.doc.lineAt(
i.to).from==n.doc.lineAt(s.from).from&&!/\S/.test(n.sliceDoc(i.to,s.from))?{from:i.to,to:s.from}:null}var Zh=Ec(!1),Yp=Ec(
!0);function Ec(n){return({state:e,dispatch:t})=>{if(e.readOnly)return!1;let i=e.changeByRange(s=>{let{from:r,to:o}=s,l=e.
doc.lineAt(r),a=!n&&r==o&&_p(e,r);n&&(r=o=(o<=l.to?l:e.doc.lineAt(o)).to);let h=new Et(e,{simulateBreak:r,simulateDoubleBreak:!!a}),
c=Oo(h,r);for(c==null&&(c=vt(/^\s*/.exec(e.doc.lineAt(r).text)[0],e.tabSize));o<l.to&&/\s/.test(l.text[o-l.from]);)o++;a?
{from:r,to:o}=a:r>l.from&&r<l.from+100&&!/\S/.test(l.text.slice(0,r))&&(r=l.from);let f=["",Gi(e,c)];return a&&f.push(Gi(
e,h.lineIndent(l.from,-1))),{changes:{from:r,to:o,insert:P.of(f)},range:x.cursor(r+1+f[1].length)}});return t(e.update(i,
{scrollIntoView:!0,userEvent:"input"})),!0}}function Wo(n,e){let t=-1;return n.changeByRange(i=>{let s=[];for(let o=i.from;o<=
i.to;){let l=n.doc.lineAt(o);l.number>t&&(i.empty||i.to>l.from)&&(e(l,s,i),t=l.number),o=l.to+1}let r=n.changes(s);return{
changes:s,range:x.range(r.mapPos(i.anchor,1),r.mapPos(i.head,1))}})}var Xp=({state:n,dispatch:e})=>{if(n.readOnly)return!1;
let t=Object.create(null),i=new Et(n,{overrideIndentation:r=>{let o=t[r];return o??-1}}),s=Wo(n,(r,o,l)=>{let a=Oo(i,r.from);
if(a==null)return;/\S/.test(r.text)||(a=0);let h=/^\s*/.exec(r.text)[0],c=Gi(n,a);(h!=c||l.from<r.from+h.length)&&(t[r.from]=
a,o.push({from:r.from,to:r.from+h.length,insert:c}))});return s.changes.empty||e(n.update(s,{userEvent:"indent"})),!0},Jp=({
state:n,dispatch:e})=>n.readOnly?!1:(e(n.update(Wo(n,(t,i)=>{i.push({from:t.from,insert:n.facet(rs)})}),{userEvent:"inpu\
t.indent"})),!0),Qp=({state:n,dispatch:e})=>n.readOnly?!1:(e(n.update(Wo(n,(t,i)=>{let s=/^\s*/.exec(t.text)[0];if(!s)return;
let r=vt(s,n.tabSize),o=0,l=Gi(n,Math.max(0,r-ft(n)));for(;o<s.length&&o<l.length&&s.charCodeAt(o)==l.charCodeAt(o);)o++;
i.push({from:t.from+o,to:t.from+s.length,insert:l.slice(o)})}),{userEvent:"delete.dedent"})),!0),Zp=n=>(n.setTabFocusMode(),
!0);var eg=[{key:"Ctrl-b",run:hc,shift:bc,preventDefault:!0},{key:"Ctrl-f",run:cc,shift:xc},{key:"Ctrl-p",run:dc,shift:vc},{
key:"Ctrl-n",run:pc,shift:Sc},{key:"Ctrl-a",run:yp,shift:Op},{key:"Ctrl-e",run:bp,shift:Bp},{key:"Ctrl-d",run:Tc},{key:"\
Ctrl-h",run:No},{key:"Ctrl-k",run:Hp},{key:"Ctrl-Alt-h",run:Oc},{key:"Ctrl-o",run:zp},{key:"Ctrl-t",run:qp},{key:"Ctrl-v",
run:Io}],tg=[{key:"ArrowLeft",run:hc,shift:bc,preventDefault:!0},{key:"Mod-ArrowLeft",mac:"Alt-ArrowLeft",run:ap,shift:kp,
preventDefault:!0},{mac:"Cmd-ArrowLeft",run:gp,shift:Tp,preventDefault:!0},{key:"ArrowRight",run:cc,shift:xc,preventDefault:!0},
{key:"Mod-ArrowRight",mac:"Alt-ArrowRight",run:hp,shift:vp,preventDefault:!0},{mac:"Cmd-ArrowRight",run:mp,shift:Dp,preventDefault:!0},
{key:"ArrowUp",run:dc,shift:vc,preventDefault:!0},{mac:"Cmd-ArrowUp",run:Yh,shift:Jh},{mac:"Ctrl-ArrowUp",run:Gh,shift:Uh},
{key:"ArrowDown",run:pc,shift:Sc,preventDefault:!0},{mac:"Cmd-ArrowDown",run:Xh,shift:Qh},{mac:"Ctrl-ArrowDown",run:Io,shift:_h},
{key:"PageUp",run:Gh,shift:Uh},{key:"PageDown",run:Io,shift:_h},{key:"Home",run:pp,shift:Mp,preventDefault:!0},{key:"Mod\
-Home",run:Yh,shift:Jh},{key:"End",run:dp,shift:Ap,preventDefault:!0},{key:"Mod-End",run:Xh,shift:Qh},{key:"Enter",run:Zh,
shift:Zh},{key:"Mod-a",run:Lp},{key:"Backspace",run:No,shift:No,preventDefault:!0},{key:"Delete",run:Tc,preventDefault:!0},
{key:"Mod-Backspace",mac:"Alt-Backspace",run:Oc,preventDefault:!0},{key:"Mod-Delete",mac:"Alt-Delete",run:Fp,preventDefault:!0},
{mac:"Mod-Backspace",run:Wp,preventDefault:!0},{mac:"Mod-Delete",run:Vp,preventDefault:!0}].concat(eg.map(n=>({mac:n.key,
run:n.run,shift:n.shift}))),Rc=[{key:"Alt-ArrowLeft",mac:"Ctrl-ArrowLeft",run:fp,shift:Sp},{key:"Alt-ArrowRight",mac:"Ct\
rl-ArrowRight",run:up,shift:Cp},{key:"Alt-ArrowUp",run:Kp},{key:"Shift-Alt-ArrowUp",run:jp},{key:"Alt-ArrowDown",run:$p},
{key:"Shift-Alt-ArrowDown",run:Gp},{key:"Mod-Alt-ArrowUp",run:Pp},{key:"Mod-Alt-ArrowDown",run:Ip},{key:"Escape",run:Np},
{key:"Mod-Enter",run:Yp},{key:"Alt-l",mac:"Ctrl-l",run:Ep},{key:"Mod-i",run:Rp,preventDefault:!0},{key:"Mod-[",run:Qp},{
key:"Mod-]",run:Jp},{key:"Mod-Alt-\\",run:Xp},{key:"Shift-Mod-k",run:Up},{key:"Shift-Mod-\\",run:wp},{key:"Mod-/",run:jd},
{key:"Alt-A",mac:"Ctrl-A",run:Ud},{key:"Ctrl-m",mac:"Shift-Alt-m",run:Zp}].concat(tg);var Pc={name:"toml",startState:function(){return{inString:!1,stringType:"",lhs:!0,inArray:0}},token:function(n,e){let t;
if(!e.inString&&(t=n.match(/^('''|"""|'|")/))&&(e.stringType=t[0],e.inString=!0),n.sol()&&!e.inString&&e.inArray===0&&(e.
lhs=!0),e.inString){for(;e.inString;)if(n.match(e.stringType))e.inString=!1;else if(n.peek()==="\\")n.next(),n.next();else{
if(n.eol())break;n.match(/^.[^\\\"\']*/)}return e.lhs?"property":"string"}else{if(e.inArray&&n.peek()==="]")return n.next(),
e.inArray--,"bracket";if(e.lhs&&n.peek()==="["&&n.skipTo("]"))return n.next(),n.peek()==="]"&&n.next(),"atom";if(n.peek()===
"#")return n.skipToEnd(),"comment";if(n.eatSpace())return null;if(e.lhs&&n.eatWhile(function(i){return i!="="&&i!=" "}))
return"property";if(e.lhs&&n.peek()==="=")return n.next(),e.lhs=!1,null;if(!e.lhs&&n.match(/^\d\d\d\d[\d\-\:\.T]*Z/))return"\
atom";if(!e.lhs&&(n.match("true")||n.match("false")))return"atom";if(!e.lhs&&n.peek()==="[")return e.inArray++,n.next(),
"bracket";if(!e.lhs&&n.match(/^\-?\d+(?:\.\d+)?/))return"number";n.eatSpace()||n.next()}return null},languageData:{commentTokens:{
line:"#"}}};var ps=class{constructor(e,t,i){this.from=e,this.to=t,this.diagnostic=i}},It=class n{constructor(e,t,i){this.diagnostics=
e,this.panel=t,this.selected=i}static init(e,t,i){let s=i.facet(Yi).markerFilter;s&&(e=s(e,i));let r=e.slice().sort((d,p)=>d.
from-p.from||d.to-p.to),o=new ke,l=[],a=0,h=i.doc.iter(),c=0,f=i.doc.length;for(let d=0;;){let p=d==r.length?null:r[d];if(!p&&
!l.length)break;let g,m;if(l.length)g=a,m=l.reduce((b,T)=>Math.min(b,T.to),p&&p.from>g?p.from:1e8);else{if(g=p.from,g>f)
break;m=p.to,l.push(p),d++}for(;d<r.length;){let b=r[d];if(b.from==g&&(b.to>b.from||b.to==g))l.push(b),d++,m=Math.min(b.
to,m);else{m=Math.min(b.from,m);break}}m=Math.min(m,f);let y=!1;if(l.some(b=>b.from==g&&(b.to==m||m==f))&&(y=g==m,!y&&m-
g<10)){let b=g-(c+h.value.length);b>0&&(h.next(b),c=g);for(let T=g;;){if(T>=m){y=!0;break}if(!h.lineBreak&&c+h.value.length>
T)break;T=c+h.value.length,c+=h.value.length,h.next()}}let A=jc(l);if(y)o.add(g,g,L.widget({widget:new Vo(A),diagnostics:l.
slice()}));else{let b=l.reduce((T,S)=>S.markClass?T+" "+S.markClass:T,"");o.add(g,m,L.mark({class:"cm-lintRange cm-lintR\
ange-"+A+b,diagnostics:l.slice(),inclusiveEnd:l.some(T=>T.to>m)}))}if(a=m,a==f)break;for(let b=0;b<l.length;b++)l[b].to<=
a&&l.splice(b--,1)}let u=o.finish();return new n(u,t,dt(u))}};function dt(n,e=null,t=0){let i=null;return n.between(t,1e9,
(s,r,{spec:o})=>{if(!(e&&o.diagnostics.indexOf(e)<0))if(!i)i=new ps(s,r,e||o.diagnostics[0]);else{if(o.diagnostics.indexOf(
i.diagnostic)<0)return!1;i=new ps(i.from,r,i.diagnostic)}}),i}function Fc(n,e){let t=e.pos,i=e.end||t,s=n.state.facet(Yi).
hideOn(n,t,i);if(s!=null)return s;let r=n.startState.doc.lineAt(e.pos);return!!(n.effects.some(o=>o.is(ys))||n.changes.touchesRange(
r.from,Math.max(r.to,i)))}function Hc(n,e){return n.field(xe,!1)?e:e.concat(R.appendConfig.of(dg))}function Wc(n,e){return{
effects:Hc(n,[ys.of(e)])}}var ys=R.define(),qo=R.define(),Vc=R.define(),xe=ee.define({create(){return new It(L.none,null,
null)},update(n,e){if(e.docChanged&&n.diagnostics.size){let t=n.diagnostics.map(e.changes),i=null,s=n.panel;if(n.selected){
let r=e.changes.mapPos(n.selected.from,1);i=dt(t,n.selected.diagnostic,r)||dt(t,null,r)}!t.size&&s&&e.state.facet(Yi).autoPanel&&
(s=null),n=new It(t,s,i)}for(let t of e.effects)if(t.is(ys)){let i=e.state.facet(Yi).autoPanel?t.value.length?Xi.open:null:
n.panel;n=It.init(t.value,i,e.state)}else t.is(qo)?n=new It(n.diagnostics,t.value?Xi.open:null,n.selected):t.is(Vc)&&(n=
new It(n.diagnostics,n.panel,t.value));return n},provide:n=>[Tt.from(n,e=>e.panel),M.decorations.from(n,e=>e.diagnostics)]});var ig=L.mark({class:"cm-lintRange cm-lintRange-active"});function ng(n,e,t){let{diagnostics:i}=n.state.field(xe),s,r=-1,
o=-1;i.between(e-(t<0?1:0),e+(t>0?1:0),(a,h,{spec:c})=>{if(e>=a&&e<=h&&(a==h||(e>a||t>0)&&(e<h||t<0)))return s=c.diagnostics,
r=a,o=h,!1});let l=n.state.facet(Yi).tooltipFilter;return s&&l&&(s=l(s,n.state)),s?{pos:r,end:o,above:!0,create(){return{
dom:zc(n,s)}}}:null}function zc(n,e){return H("ul",{class:"cm-tooltip-lint"},e.map(t=>$c(n,t,!1)))}var sg=n=>{let e=n.state.
field(xe,!1);(!e||!e.panel)&&n.dispatch({effects:Hc(n.state,[qo.of(!0)])});let t=ri(n,Xi.open);return t&&t.dom.querySelector(
".cm-panel-lint ul").focus(),!0},Ic=n=>{let e=n.state.field(xe,!1);return!e||!e.panel?!1:(n.dispatch({effects:qo.of(!1)}),
!0)},rg=n=>{let e=n.state.field(xe,!1);if(!e)return!1;let t=n.state.selection.main,i=dt(e.diagnostics,null,t.to+1);return!i&&
(i=dt(e.diagnostics,null,0),!i||i.from==t.from&&i.to==t.to)?!1:(n.dispatch({selection:{anchor:i.from,head:i.to},scrollIntoView:!0}),
uh(n,i.from,1,{tooltip:Uc,until:s=>s.docChanged||s.newSelection.main.head<i.from||s.newSelection.main.head>i.to}),!0)};var qc=[{key:"Mod-Shift-m",run:sg,preventDefault:!0},{key:"F8",run:rg}];var Yi=C.define({combine(n){return{sources:n.map(e=>e.source).filter(e=>e!=null),...Be(n.map(e=>e.config),{delay:750,markerFilter:null,
tooltipFilter:null,needsRefresh:null,hideOn:()=>null},{delay:Math.max,markerFilter:Nc,tooltipFilter:Nc,needsRefresh:(e,t)=>e?
t?i=>e(i)||t(i):e:t,hideOn:(e,t)=>e?t?(i,s,r)=>e(i,s,r)||t(i,s,r):e:t,autoPanel:(e,t)=>e||t})}}});function Nc(n,e){return n?
e?(t,i)=>e(n(t,i),i):n:e}function Kc(n){let e=[];if(n)e:for(let{name:t}of n){for(let i=0;i<t.length;i++){let s=t[i];if(/[a-zA-Z]/.test(s)&&!e.some(
r=>r.toLowerCase()==s.toLowerCase())){e.push(s);continue e}}e.push("")}return e}function $c(n,e,t){var i;let s=t?Kc(e.actions):
[];return H("li",{class:"cm-diagnostic cm-diagnostic-"+e.severity},H("span",{class:"cm-diagnosticText"},e.renderMessage?
e.renderMessage(n):e.message),(i=e.actions)===null||i===void 0?void 0:i.map((r,o)=>{let l=0,a=d=>{if(d.preventDefault(),
l>Date.now()-100)return;let p=dt(n.state.field(xe).diagnostics,e);p&&r.apply(n,p.from,p.to),l=Date.now()},{name:h}=r,c=s[o]?
h.indexOf(s[o]):-1,f=c<0?h:[h.slice(0,c),H("u",h.slice(c,c+1)),h.slice(c+1)],u=r.markClass?" "+r.markClass:"";return H("\
button",{type:"button",class:"cm-diagnosticAction"+u,onclick:a,onmousedown:a,"aria-label":` Action: ${h}${c<0?"":` (acce\
ss key "${s[o]})"`}.`},f)}),e.source&&H("div",{class:"cm-diagnosticSource"},e.source))}var Vo=class extends et{constructor(e){
super(),this.sev=e}eq(e){return e.sev==this.sev}toDOM(){return H("span",{class:"cm-lintPoint cm-lintPoint-"+this.sev})}},
gs=class{constructor(e,t){this.diagnostic=t,this.id="item_"+Math.floor(Math.random()*4294967295).toString(16),this.dom=$c(
e,t,!0),this.dom.id=this.id,this.dom.setAttribute("role","option")}},Xi=class n{constructor(e){this.view=e,this.items=[];
let t=s=>{if(!(s.ctrlKey||s.altKey||s.metaKey)){if(s.keyCode==27)Ic(this.view),this.view.focus();else if(s.keyCode==38||
s.keyCode==33)this.moveSelection((this.selectedIndex-1+this.items.length)%this.items.length);else if(s.keyCode==40||s.keyCode==
34)this.moveSelection((this.selectedIndex+1)%this.items.length);else if(s.keyCode==36)this.moveSelection(0);else if(s.keyCode==
35)this.moveSelection(this.items.length-1);else if(s.keyCode==13)this.view.focus();else if(s.keyCode>=65&&s.keyCode<=90&&
this.selectedIndex>=0){let{diagnostic:r}=this.items[this.selectedIndex],o=Kc(r.actions);for(let l=0;l<o.length;l++)if(o[l].
toUpperCase().charCodeAt(0)==s.keyCode){let a=dt(this.view.state.field(xe).diagnostics,r);a&&r.actions[l].apply(e,a.from,
a.to)}}else return;s.preventDefault()}},i=s=>{for(let r=0;r<this.items.length;r++)this.items[r].dom.contains(s.target)&&
this.moveSelection(r)};this.list=H("ul",{tabIndex:0,role:"listbox","aria-label":this.view.state.phrase("Diagnostics"),onkeydown:t,
onclick:i}),this.dom=H("div",{class:"cm-panel-lint"},this.list,H("button",{type:"button",name:"close","aria-label":this.
view.state.phrase("close"),onclick:()=>Ic(this.view)},"×")),this.update()}get selectedIndex(){let e=this.view.state.field(
xe).selected;if(!e)return-1;for(let t=0;t<this.items.length;t++)if(this.items[t].diagnostic==e.diagnostic)return t;return-1}update(){
let{diagnostics:e,selected:t}=this.view.state.field(xe),i=0,s=!1,r=null,o=new Set;for(e.between(0,this.view.state.doc.length,
(l,a,{spec:h})=>{for(let c of h.diagnostics){if(o.has(c))continue;o.add(c);let f=-1,u;for(let d=i;d<this.items.length;d++)
if(this.items[d].diagnostic==c){f=d;break}f<0?(u=new gs(this.view,c),this.items.splice(i,0,u),s=!0):(u=this.items[f],f>i&&
(this.items.splice(i,f-i),s=!0)),t&&u.diagnostic==t.diagnostic?u.dom.hasAttribute("aria-selected")||(u.dom.setAttribute(
"aria-selected","true"),r=u):u.dom.hasAttribute("aria-selected")&&u.dom.removeAttribute("aria-selected"),i++}});i<this.items.
length&&!(this.items.length==1&&this.items[0].diagnostic.from<0);)s=!0,this.items.pop();this.items.length==0&&(this.items.
push(new gs(this.view,{from:-1,to:-1,severity:"info",message:this.view.state.phrase("No diagnostics")})),s=!0),r?(this.list.
setAttribute("aria-activedescendant",r.id),this.view.requestMeasure({key:this,read:()=>({sel:r.dom.getBoundingClientRect(),
panel:this.list.getBoundingClientRect()}),write:({sel:l,panel:a})=>{let h=a.height/this.list.offsetHeight;l.top<a.top?this.
list.scrollTop-=(a.top-l.top)/h:l.bottom>a.bottom&&(this.list.scrollTop+=(l.bottom-a.bottom)/h)}})):this.selectedIndex<0&&
this.list.removeAttribute("aria-activedescendant"),s&&this.sync()}sync(){let e=this.list.firstChild;function t(){let i=e;
e=i.nextSibling,i.remove()}for(let i of this.items)if(i.dom.parentNode==this.list){for(;e!=i.dom;)t();e=i.dom.nextSibling}else
this.list.insertBefore(i.dom,e);for(;e;)t()}moveSelection(e){if(this.selectedIndex<0)return;let t=this.view.state.field(
xe),i=dt(t.diagnostics,this.items[e].diagnostic);i&&this.view.dispatch({selection:{anchor:i.from,head:i.to},scrollIntoView:!0,
effects:Vc.of(i)})}static open(e){return new n(e)}};function ds(n,e='viewBox="0 0 40 40"'){return`url('data:image/svg+xm\
l,<svg xmlns="http://www.w3.org/2000/svg" ${e}>${encodeURIComponent(n)}</svg>')`}function us(n){return ds(`<path d="m0 2\
.5 l2 -1.5 l1 0 l2 1.5 l1 0" stroke="${n}" fill="none" stroke-width=".7"/>`,'width="6" height="3"')}var og=M.baseTheme({
".cm-diagnostic":{padding:"3px 6px 3px 8px",marginLeft:"-1px",display:"block",whiteSpace:"pre-wrap"},".cm-diagnostic-err\
or":{borderLeft:"5px solid #d11"},".cm-diagnostic-warning":{borderLeft:"5px solid orange"},".cm-diagnostic-info":{borderLeft:"\
5px solid #999"},".cm-diagnostic-hint":{borderLeft:"5px solid #66d"},".cm-diagnosticAction":{font:"inherit",border:"none",
padding:"2px 4px",backgroundColor:"#444",color:"white",borderRadius:"3px",marginLeft:"8px",cursor:"pointer"},".cm-diagno\
sticSource":{fontSize:"70%",opacity:.7},".cm-lintRange":{backgroundPosition:"left bottom",backgroundRepeat:"repeat-x",paddingBottom:"\
0.7px"},".cm-lintRange-error":{backgroundImage:us("#f11")},".cm-lintRange-warning":{backgroundImage:us("orange")},".cm-l\
intRange-info":{backgroundImage:us("#999")},".cm-lintRange-hint":{backgroundImage:us("#66d")},".cm-lintRange-active":{backgroundColor:"\
#ffdd9980"},".cm-tooltip-lint":{padding:0,margin:0},".cm-lintPoint":{position:"relative","&:after":{content:'""',position:"\
absolute",bottom:0,left:"-2px",borderLeft:"3px solid transparent",borderRight:"3px solid transparent",borderBottom:"4px \
solid #d11"}},".cm-lintPoint-warning":{"&:after":{borderBottomColor:"orange"}},".cm-lintPoint-info":{"&:after":{borderBottomColor:"\
#999"}},".cm-lintPoint-hint":{"&:after":{borderBottomColor:"#66d"}},".cm-panel.cm-panel-lint":{position:"relative","& ul":{
maxHeight:"100px",overflowY:"auto","& [aria-selected]":{backgroundColor:"#ddd","& u":{textDecoration:"underline"}},"&:fo\
cus [aria-selected]":{background_fallback:"#bdf",backgroundColor:"Highlight",color_fallback:"white",color:"HighlightText"},
"& u":{textDecoration:"none"},padding:0,margin:0},"& [name=close]":{position:"absolute",top:"0",right:"2px",background:"\
inherit",border:"none",font:"inherit",padding:0,margin:0}},"&dark .cm-lintRange-active":{backgroundColor:"#86714a80"},"&\
dark .cm-panel.cm-panel-lint ul":{"& [aria-selected]":{backgroundColor:"#2e343e"}}});function lg(n){return n=="error"?4:
n=="warning"?3:n=="info"?2:1}function jc(n){let e="hint",t=1;for(let i of n){let s=lg(i.severity);s>t&&(t=s,e=i.severity)}
return e}var ms=class extends ye{constructor(e){super(),this.diagnostics=e,this.severity=jc(e)}toDOM(e){let t=document.createElement(
"div");t.className="cm-lint-marker cm-lint-marker-"+this.severity;let i=this.diagnostics,s=e.state.facet(bs).tooltipFilter;
return s&&(i=s(i,e.state)),i.length&&(t.onmouseover=()=>hg(e,t,i)),t}};function ag(n,e){let t=i=>{let s=e.getBoundingClientRect();
if(!(i.clientX>s.left-10&&i.clientX<s.right+10&&i.clientY>s.top-10&&i.clientY<s.bottom+10)){for(let r=i.target;r;r=r.parentNode)
if(r.nodeType==1&&r.classList.contains("cm-tooltip-lint"))return;window.removeEventListener("mousemove",t),n.state.field(
Gc)&&n.dispatch({effects:Ko.of(null)})}};window.addEventListener("mousemove",t)}function hg(n,e,t){function i(){let o=n.
elementAtHeight(e.getBoundingClientRect().top+5-n.documentTop);n.coordsAtPos(o.from)&&n.dispatch({effects:Ko.of({pos:o.from,
above:!1,clip:!1,create(){return{dom:zc(n,t),getCoords:()=>e.getBoundingClientRect()}}})}),e.onmouseout=e.onmousemove=null,
ag(n,e)}let{hoverTime:s}=n.state.facet(bs),r=setTimeout(i,s);e.onmouseout=()=>{clearTimeout(r),e.onmouseout=e.onmousemove=
null},e.onmousemove=()=>{clearTimeout(r),r=setTimeout(i,s)}}function cg(n,e){let t=Object.create(null);for(let s of e){let r=n.
lineAt(s.from);(t[r.from]||(t[r.from]=[])).push(s)}let i=[];for(let s in t)i.push(new ms(t[s]).range(+s));return F.of(i,
!0)}var fg=ro({class:"cm-gutter-lint",markers:n=>n.state.field(zo),widgetMarker:(n,e,t)=>{let i=[];return n.state.field(
zo).between(t.from,t.to,(s,r,o)=>{s>t.from&&s<t.to&&i.push(...o.diagnostics)}),i.length?new ms(i):null}}),zo=ee.define({
create(){return F.empty},update(n,e){n=n.map(e.changes);let t=e.state.facet(bs).markerFilter;for(let i of e.effects)if(i.
is(ys)){let s=i.value;t&&(s=t(s||[],e.state)),n=cg(e.state.doc,s.slice(0))}return n}}),Ko=R.define(),Gc=ee.define({create(){
return null},update(n,e){return n&&e.docChanged&&(n=Fc(e,n)?null:{...n,pos:e.changes.mapPos(n.pos)}),e.effects.reduce((t,i)=>i.
is(Ko)?i.value:t,n)},provide:n=>_n.from(n)}),ug=M.baseTheme({".cm-gutter-lint":{width:"1.4em","& .cm-gutterElement":{padding:"\
.2em"}},".cm-lint-marker":{width:"1em",height:"1em"},".cm-lint-marker-info":{content:ds('<path fill="#aaf" stroke="#77e"\
 stroke-width="6" stroke-linejoin="round" d="M5 5L35 5L35 35L5 35Z"/>')},".cm-lint-marker-warning":{content:ds('<path fi\
ll="#fe8" stroke="#fd7" stroke-width="6" stroke-linejoin="round" d="M20 6L37 35L3 35Z"/>')},".cm-lint-marker-error":{content:ds(
'<circle cx="20" cy="20" r="15" fill="#f87" stroke="#f43" stroke-width="6"/>')}}),Uc=fh(ng,{hideOn:Fc}),dg=[xe,M.decorations.
compute([xe],n=>{let{selected:e,panel:t}=n.field(xe);return!e||!t||e.from==e.to?L.none:L.set([ig.range(e.from,e.to)])}),
Uc,og],bs=C.define({combine(n){return Be(n,{hoverTime:300,markerFilter:null,tooltipFilter:null})}});function _c(n={}){return[
bs.of(n),zo,fg,ug,Gc]}var Yc=typeof String.prototype.normalize=="function"?n=>n.normalize("NFKD"):n=>n,gt=class{constructor(e,t,i=0,s=e.length,r,o){
this.test=o,this.value={from:0,to:0,precise:!1},this.done=!1,this.matches=[],this.buffer="",this.bufferPos=0,this.iter=e.
iterRange(i,s),this.bufferStart=i,this.normalize=r?l=>r(Yc(l)):Yc,this.query=this.normalize(t)}peek(){if(this.bufferPos==
this.buffer.length){if(this.bufferStart+=this.buffer.length,this.iter.next(),this.iter.done)return-1;this.bufferPos=0,this.
buffer=this.iter.value}return un(this.buffer,this.bufferPos)}next(){for(;this.matches.length;)this.matches.pop();return this.
nextOverlapping()}nextOverlapping(){for(;;){let e=this.peek();if(e<0)return this.done=!0,this;let t=gl(e),i=this.bufferStart+
this.bufferPos;this.bufferPos+=dn(e);let s=this.normalize(t);if(s.length)for(let r=0,o=i,l=!0;;r++){let a=s.charCodeAt(r),
h=this.match(a,o,l,this.bufferPos+this.bufferStart,r==s.length-1);if(h)return this.value=h,this;if(r==s.length-1)break;l&&
r<t.length&&t.charCodeAt(r)==a?o++:l=!1}}}match(e,t,i,s,r){let o=null;for(let l=0;l<this.matches.length;){let a=this.matches[l],
h=!1;this.query.charCodeAt(a.index)==e&&(a.index==this.query.length-1?o={from:a.from,to:s,precise:r&&a.precise}:(a.index++,
h=!0)),h?l++:this.matches.splice(l,1)}return this.query.charCodeAt(0)==e&&(this.query.length==1?o={from:t,to:s,precise:i&&
r}:this.matches.push({from:t,index:1,precise:i})),o&&this.test&&!this.test(o.from,o.to,this.buffer,this.bufferStart)&&(o=
null),o}};typeof Symbol<"u"&&(gt.prototype[Symbol.iterator]=function(){return this});var Qc={from:-1,to:-1,match:/.*/.exec(
""),precise:!0},Xo="gm"+(/x/.unicode==null?"":"u"),ks=class{constructor(e,t,i,s=0,r=e.length){if(this.text=e,this.to=r,this.
curLine="",this.done=!1,this.value=Qc,/\\[sWDnr]|\n|\r|\[\^/.test(t))return new Ss(e,t,i,s,r);this.re=new RegExp(t,Xo+(i?.
ignoreCase?"i":"")),this.test=i?.test,this.iter=e.iter();let o=e.lineAt(s);this.curLineStart=o.from,this.matchPos=Cs(e,s),
this.getLine(this.curLineStart)}getLine(e){this.iter.next(e),this.iter.lineBreak?this.curLine="":(this.curLine=this.iter.
value,this.curLineStart+this.curLine.length>this.to&&(this.curLine=this.curLine.slice(0,this.to-this.curLineStart)),this.
iter.next())}nextLine(){this.curLineStart=this.curLineStart+this.curLine.length+1,this.curLineStart>this.to?this.curLine=
"":this.getLine(0)}next(){for(let e=this.matchPos-this.curLineStart;;){this.re.lastIndex=e;let t=this.matchPos<=this.to&&
this.re.exec(this.curLine);if(t){let i=this.curLineStart+t.index,s=i+t[0].length;if(this.matchPos=Cs(this.text,s+(i==s?1:
0)),i==this.curLineStart+this.curLine.length&&this.nextLine(),(i<s||i>this.value.to)&&(!this.test||this.test(i,s,t)))return this.
value={from:i,to:s,precise:!0,match:t},this;e=this.matchPos-this.curLineStart}else if(this.curLineStart+this.curLine.length<
this.to)this.nextLine(),e=0;else return this.done=!0,this}}},$o=new WeakMap,vs=class n{constructor(e,t){this.from=e,this.
text=t}get to(){return this.from+this.text.length}static get(e,t,i){let s=$o.get(e);if(!s||s.from>=i||s.to<=t){let l=new n(
t,e.sliceString(t,i));return $o.set(e,l),l}if(s.from==t&&s.to==i)return s;let{text:r,from:o}=s;return o>t&&(r=e.sliceString(
t,o)+r,o=t),s.to<i&&(r+=e.sliceString(s.to,i)),$o.set(e,new n(o,r)),new n(t,r.slice(t-o,i-o))}},Ss=class{constructor(e,t,i,s,r){
this.text=e,this.to=r,this.done=!1,this.value=Qc,this.matchPos=Cs(e,s),this.re=new RegExp(t,Xo+(i?.ignoreCase?"i":"")),this.
test=i?.test,this.flat=vs.get(e,s,this.chunkEnd(s+5e3))}chunkEnd(e){return e>=this.to?this.to:this.text.lineAt(e).to}next(){
for(;;){let e=this.re.lastIndex=this.matchPos-this.flat.from,t=this.re.exec(this.flat.text);if(t&&!t[0]&&t.index==e&&(this.
re.lastIndex=e+1,t=this.re.exec(this.flat.text)),t){let i=this.flat.from+t.index,s=i+t[0].length;if((this.flat.to>=this.
to||t.index+t[0].length<=this.flat.text.length-10)&&(!this.test||this.test(i,s,t)))return this.value={from:i,to:s,precise:!0,
match:t},this.matchPos=Cs(this.text,s+(i==s?1:0)),this}if(this.flat.to==this.to)return this.done=!0,this;this.flat=vs.get(
this.text,this.flat.from,this.chunkEnd(this.flat.from+this.flat.text.length*2))}}};typeof Symbol<"u"&&(ks.prototype[Symbol.
iterator]=Ss.prototype[Symbol.iterator]=function(){return this});function pg(n){try{return new RegExp(n,Xo),!0}catch{return!1}}
function Cs(n,e){if(e>=n.length)return e;let t=n.lineAt(e),i;for(;e<t.to&&(i=t.text.charCodeAt(e-t.from))>=56320&&i<57344;)
e++;return e}var gg=n=>{let e=gh(n,"cm-goto-line");if(e){let o=e.dom.querySelector("input[type=text]");return o&&o.select(),
!0}let{state:t}=n,i=String(t.doc.lineAt(n.state.selection.main.head).number),{close:s,result:r}=ph(n,{class:"cm-goto-lin\
e",label:t.phrase("Go to line"),input:{type:"text",name:"line",value:i},focus:!0,submitLabel:t.phrase("go")});return r.then(
o=>{let l=o&&/^([+-])?(\d+)?(:\d+)?(%)?$/.exec(o.elements.line.value);if(!l){n.dispatch({effects:s});return}let a=t.doc.
lineAt(t.selection.main.head),[,h,c,f,u]=l,d=f?+f.slice(1):0,p=c?+c:a.number;if(c&&u){let y=p/100;h&&(y=y*(h=="-"?-1:1)+
a.number/t.doc.lines),p=Math.round(t.doc.lines*y)}else c&&h&&(p=p*(h=="-"?-1:1)+a.number);let g=t.doc.line(Math.max(1,Math.
min(t.doc.lines,p))),m=x.cursor(g.from+Math.max(0,Math.min(d,g.length)));n.dispatch({effects:[s,M.scrollIntoView(m.from,
{y:"center"})],selection:m})}),!0},mg={highlightWordAroundCursor:!1,minSelectionLength:1,maxMatches:100,wholeWords:!1},Zc=C.
define({combine(n){return Be(n,mg,{highlightWordAroundCursor:(e,t)=>e||t,minSelectionLength:Math.min,maxMatches:Math.min})}});
function ef(n){let e=[kg,wg];return n&&e.push(Zc.of(n)),e}var yg=L.mark({class:"cm-selectionMatch"}),bg=L.mark({class:"c\
m-selectionMatch cm-selectionMatch-main"});function Xc(n,e,t,i){return(t==0||n(e.sliceDoc(t-1,t))!=j.Word)&&(i==e.doc.length||
n(e.sliceDoc(i,i+1))!=j.Word)}function xg(n,e,t,i){return n(e.sliceDoc(t,t+1))==j.Word&&n(e.sliceDoc(i-1,i))==j.Word}var wg=se.
fromClass(class{constructor(n){this.decorations=this.getDeco(n)}update(n){(n.selectionSet||n.docChanged||n.viewportChanged)&&
(this.decorations=this.getDeco(n.view))}getDeco(n){let e=n.state.facet(Zc),{state:t}=n,i=t.selection;if(i.ranges.length>
1)return L.none;let s=i.main,r,o=null;if(s.empty){if(!e.highlightWordAroundCursor)return L.none;let a=t.wordAt(s.head);if(!a)
return L.none;o=t.charCategorizer(s.head),r=t.sliceDoc(a.from,a.to)}else{let a=s.to-s.from;if(a<e.minSelectionLength||a>
200)return L.none;if(e.wholeWords){if(r=t.sliceDoc(s.from,s.to),o=t.charCategorizer(s.head),!(Xc(o,t,s.from,s.to)&&xg(o,
t,s.from,s.to)))return L.none}else if(r=t.sliceDoc(s.from,s.to),!r)return L.none}let l=[];for(let a of n.visibleRanges){
let h=new gt(t.doc,r,a.from,a.to);for(;!h.next().done;){let{from:c,to:f}=h.value;if((!o||Xc(o,t,c,f))&&(s.empty&&c<=s.from&&
f>=s.to?l.push(bg.range(c,f)):(c>=s.to||f<=s.from)&&l.push(yg.range(c,f)),l.length>e.maxMatches))return L.none}}return L.
set(l)}},{decorations:n=>n.decorations}),kg=M.baseTheme({".cm-selectionMatch":{backgroundColor:"#99ff7780"},".cm-searchM\
atch .cm-selectionMatch":{backgroundColor:"transparent"}}),vg=({state:n,dispatch:e})=>{let{selection:t}=n,i=x.create(t.ranges.
map(s=>n.wordAt(s.head)||x.cursor(s.head)),t.mainIndex);return i.eq(t)?!1:(e(n.update({selection:i})),!0)};function Sg(n,e){
let{main:t,ranges:i}=n.selection,s=n.wordAt(t.head),r=s&&s.from==t.from&&s.to==t.to;for(let o=!1,l=new gt(n.doc,e,i[i.length-
1].to);;)if(l.next(),l.done){if(o)return null;l=new gt(n.doc,e,0,Math.max(0,i[i.length-1].from-1)),o=!0}else{if(o&&i.some(
a=>a.from==l.value.from))continue;if(r){let a=n.wordAt(l.value.from);if(!a||a.from!=l.value.from||a.to!=l.value.to)continue}
return l.value}}var Cg=({state:n,dispatch:e})=>{let{ranges:t}=n.selection;if(t.some(r=>r.from===r.to))return vg({state:n,
dispatch:e});let i=n.sliceDoc(t[0].from,t[0].to);if(n.selection.ranges.some(r=>n.sliceDoc(r.from,r.to)!=i))return!1;let s=Sg(
n,i);return s?(e(n.update({selection:n.selection.addRange(x.range(s.from,s.to),!1),effects:M.scrollIntoView(s.to)})),!0):
!1},Nt=C.define({combine(n){return Be(n,{top:!1,caseSensitive:!1,literal:!1,regexp:!1,wholeWord:!1,createPanel:e=>new _o(
e),scrollToMatch:e=>M.scrollIntoView(e)})}});function tf(n){return n?[Nt.of(n),Yo]:Yo}var As=class{constructor(e){this.search=
e.search,this.caseSensitive=!!e.caseSensitive,this.literal=!!e.literal,this.regexp=!!e.regexp,this.replace=e.replace||"",
this.valid=!!this.search&&(!this.regexp||pg(this.search)),this.unquoted=this.unquote(this.search),this.wholeWord=!!e.wholeWord,
this.test=e.test}unquote(e){return this.literal?e:e.replace(/\\([nrt\\])/g,(t,i)=>i=="n"?`
`:i=="r"?"\r":i=="t"?"	":"\\")}eq(e){return this.search==e.search&&this.replace==e.replace&&this.caseSensitive==e.caseSensitive&&
this.regexp==e.regexp&&this.wholeWord==e.wholeWord&&this.test==e.test}create(){return this.regexp?new Go(this):new jo(this)}getCursor(e,t=0,i){
let s=e.doc?e:V.create({doc:e});return i==null&&(i=s.doc.length),this.regexp?fi(this,s,t,i):ci(this,s,t,i)}},Ms=class{constructor(e){
this.spec=e}};function Ag(n,e,t){return(i,s,r,o)=>{if(t&&!t(i,s,r,o))return!1;let l=i>=o&&s<=o+r.length?r.slice(i-o,s-o):
e.doc.sliceString(i,s);return n(l,e,i,s)}}function ci(n,e,t,i){let s;return n.wholeWord&&(s=Mg(e.doc,e.charCategorizer(e.
selection.main.head))),n.test&&(s=Ag(n.test,e,s)),new gt(e.doc,n.unquoted,t,i,n.caseSensitive?void 0:r=>r.toLowerCase(),
s)}function Mg(n,e){return(t,i,s,r)=>((r>t||r+s.length<i)&&(r=Math.max(0,t-2),s=n.sliceString(r,Math.min(n.length,i+2))),
(e(Ts(s,t-r))!=j.Word||e(Ds(s,t-r))!=j.Word)&&(e(Ds(s,i-r))!=j.Word||e(Ts(s,i-r))!=j.Word))}var jo=class extends Ms{constructor(e){
super(e)}nextMatch(e,t,i){let s=ci(this.spec,e,i,e.doc.length).nextOverlapping();if(s.done){let r=Math.min(e.doc.length,
t+this.spec.unquoted.length);s=ci(this.spec,e,0,r).nextOverlapping()}return s.done||s.value.from==t&&s.value.to==i?null:
s.value}prevMatchInRange(e,t,i){for(let s=i;;){let r=Math.max(t,s-1e4-this.spec.unquoted.length),o=ci(this.spec,e,r,s),l=null;
for(;!o.nextOverlapping().done;)l=o.value;if(l)return l;if(r==t)return null;s-=1e4}}prevMatch(e,t,i){let s=this.prevMatchInRange(
e,0,t);return s||(s=this.prevMatchInRange(e,Math.max(0,i-this.spec.unquoted.length),e.doc.length)),s&&(s.from!=t||s.to!=
i)?s:null}getReplacement(e){return this.spec.unquote(this.spec.replace)}matchAll(e,t){let i=ci(this.spec,e,0,e.doc.length),
s=[];for(;!i.next().done;){if(s.length>=t)return null;s.push(i.value)}return s}highlight(e,t,i,s){let r=ci(this.spec,e,Math.
max(0,t-this.spec.unquoted.length),Math.min(i+this.spec.unquoted.length,e.doc.length));for(;!r.next().done;)s(r.value.from,
r.value.to)}};function Tg(n,e,t){return(i,s,r)=>(!t||t(i,s,r))&&n(r[0],e,i,s)}function fi(n,e,t,i){let s;return n.wholeWord&&
(s=Dg(e.charCategorizer(e.selection.main.head))),n.test&&(s=Tg(n.test,e,s)),new ks(e.doc,n.search,{ignoreCase:!n.caseSensitive,
test:s},t,i)}function Ts(n,e){return n.slice(Q(n,e,!1),e)}function Ds(n,e){return n.slice(e,Q(n,e))}function Dg(n){return(e,t,i)=>!i[0].
length||(n(Ts(i.input,i.index))!=j.Word||n(Ds(i.input,i.index))!=j.Word)&&(n(Ds(i.input,i.index+i[0].length))!=j.Word||n(
Ts(i.input,i.index+i[0].length))!=j.Word)}var Go=class extends Ms{nextMatch(e,t,i){let s=fi(this.spec,e,i,e.doc.length).
next();return s.done&&(s=fi(this.spec,e,0,t).next()),s.done?null:s.value}prevMatchInRange(e,t,i){for(let s=1;;s++){let r=Math.
max(t,i-s*1e4),o=fi(this.spec,e,r,i),l=null;for(;!o.next().done;)l=o.value;if(l&&(r==t||l.from>r+10))return l;if(r==t)return null}}prevMatch(e,t,i){
return this.prevMatchInRange(e,0,t)||this.prevMatchInRange(e,i,e.doc.length)}getReplacement(e){return this.spec.unquote(
this.spec.replace).replace(/\$([$&]|\d+)/g,(t,i)=>{if(i=="&")return e.match[0];if(i=="$")return"$";for(let s=i.length;s>
0;s--){let r=+i.slice(0,s);if(r>0&&r<e.match.length)return e.match[r]+i.slice(s)}return t})}matchAll(e,t){let i=fi(this.
spec,e,0,e.doc.length),s=[];for(;!i.next().done;){if(s.length>=t)return null;s.push(i.value)}return s}highlight(e,t,i,s){
let r=fi(this.spec,e,Math.max(0,t-250),Math.min(i+250,e.doc.length));for(;!r.next().done;)s(r.value.from,r.value.to)}},Qi=R.
define(),Jo=R.define(),pt=ee.define({create(n){return new Ji(Uo(n).create(),null)},update(n,e){for(let t of e.effects)t.
is(Qi)?n=new Ji(t.value.create(),n.panel):t.is(Jo)&&(n=new Ji(n.query,t.value?Qo:null));return n},provide:n=>Tt.from(n,e=>e.
panel)});var Ji=class{constructor(e,t){this.query=e,this.panel=t}},Og=L.mark({class:"cm-searchMatch"}),Bg=L.mark({class:"cm-searc\
hMatch cm-searchMatch-selected"}),Lg=se.fromClass(class{constructor(n){this.view=n,this.decorations=this.highlight(n.state.
field(pt))}update(n){let e=n.state.field(pt);(e!=n.startState.field(pt)||n.docChanged||n.selectionSet||n.viewportChanged)&&
(this.decorations=this.highlight(e))}highlight({query:n,panel:e}){if(!e||!n.spec.valid)return L.none;let{view:t}=this,i=new ke;
for(let s=0,r=t.visibleRanges,o=r.length;s<o;s++){let{from:l,to:a}=r[s];for(;s<o-1&&a>r[s+1].from-500;)a=r[++s].to;n.highlight(
t.state,l,a,(h,c)=>{let f=t.state.selection.ranges.some(u=>u.from==h&&u.to==c);i.add(h,c,f?Bg:Og)})}return i.finish()}},
{decorations:n=>n.decorations});function Zi(n){return e=>{let t=e.state.field(pt,!1);return t&&t.query.spec.valid?n(e,t):
rf(e)}}var Os=Zi((n,{query:e})=>{let{to:t}=n.state.selection.main,i=e.nextMatch(n.state,t,t);if(!i)return!1;let s=x.single(
i.from,i.to),r=n.state.facet(Nt);return n.dispatch({selection:s,effects:[Zo(n,i),r.scrollToMatch(s.main,n)],userEvent:"s\
elect.search"}),sf(n),!0}),Bs=Zi((n,{query:e})=>{let{state:t}=n,{from:i}=t.selection.main,s=e.prevMatch(t,i,i);if(!s)return!1;
let r=x.single(s.from,s.to),o=n.state.facet(Nt);return n.dispatch({selection:r,effects:[Zo(n,s),o.scrollToMatch(r.main,n)],
userEvent:"select.search"}),sf(n),!0}),Eg=Zi((n,{query:e})=>{let t=e.matchAll(n.state,1e3);return!t||!t.length?!1:(n.dispatch(
{selection:x.create(t.map(i=>x.range(i.from,i.to))),userEvent:"select.search.matches"}),!0)}),Rg=({state:n,dispatch:e})=>{
let t=n.selection;if(t.ranges.length>1||t.main.empty)return!1;let{from:i,to:s}=t.main,r=[],o=0;for(let l=new gt(n.doc,n.
sliceDoc(i,s));!l.next().done;){if(r.length>1e3)return!1;l.value.from==i&&(o=r.length),r.push(x.range(l.value.from,l.value.
to))}return e(n.update({selection:x.create(r,o),userEvent:"select.search.matches"})),!0},Jc=Zi((n,{query:e})=>{let{state:t}=n,
{from:i,to:s}=t.selection.main;if(t.readOnly)return!1;let r=e.nextMatch(t,i,i);if(!r)return!1;let o=r,l=[],a,h,c=[];o.precise?
o.from==i&&o.to==s&&(h=t.toText(e.getReplacement(o)),l.push({from:o.from,to:o.to,insert:h}),o=e.nextMatch(t,o.from,o.to),
c.push(M.announce.of(t.phrase("replaced match on line $",t.doc.lineAt(i).number)+"."))):o=e.nextMatch(t,o.from,o.to);let f=n.
state.changes(l);return o&&(a=x.single(o.from,o.to).map(f),c.push(Zo(n,o)),c.push(t.facet(Nt).scrollToMatch(a.main,n))),
n.dispatch({changes:f,selection:a,effects:c,userEvent:"input.replace"}),!0}),Pg=Zi((n,{query:e})=>{if(n.state.readOnly)return!1;
let t=[];for(let s of e.matchAll(n.state,1e9)){let{from:r,to:o,precise:l}=s;l&&t.push({from:r,to:o,insert:e.getReplacement(
s)})}if(!t.length)return!1;let i=n.state.phrase("replaced $ matches",t.length)+".";return n.dispatch({changes:t,effects:M.
announce.of(i),userEvent:"input.replace.all"}),!0});function Qo(n){return n.state.facet(Nt).createPanel(n)}function Uo(n,e){
var t,i,s,r,o;let l=n.selection.main,a=l.empty||l.to>l.from+100?"":n.sliceDoc(l.from,l.to);if(e&&!a)return e;let h=n.facet(
Nt);return new As({search:((t=e?.literal)!==null&&t!==void 0?t:h.literal)?a:a.replace(/\n/g,"\\n"),caseSensitive:(i=e?.caseSensitive)!==
null&&i!==void 0?i:h.caseSensitive,literal:(s=e?.literal)!==null&&s!==void 0?s:h.literal,regexp:(r=e?.regexp)!==null&&r!==
void 0?r:h.regexp,wholeWord:(o=e?.wholeWord)!==null&&o!==void 0?o:h.wholeWord})}function nf(n){let e=ri(n,Qo);return e&&
e.dom.querySelector("[main-field]")}function sf(n){let e=nf(n);e&&e==n.root.activeElement&&e.select()}var rf=n=>{let e=n.
state.field(pt,!1);if(e&&e.panel){let t=nf(n);if(t&&t!=n.root.activeElement){let i=Uo(n.state,e.query.spec);i.valid&&n.dispatch(
{effects:Qi.of(i)}),t.focus(),t.select()}}else n.dispatch({effects:[Jo.of(!0),e?Qi.of(Uo(n.state,e.query.spec)):R.appendConfig.
of(Yo)]});return!0},of=n=>{let e=n.state.field(pt,!1);if(!e||!e.panel)return!1;let t=ri(n,Qo);return t&&t.dom.contains(n.
root.activeElement)&&n.focus(),n.dispatch({effects:Jo.of(!1)}),!0},lf=[{key:"Mod-f",run:rf,scope:"editor search-panel"},
{key:"F3",run:Os,shift:Bs,scope:"editor search-panel",preventDefault:!0},{key:"Mod-g",run:Os,shift:Bs,scope:"editor sear\
ch-panel",preventDefault:!0},{key:"Escape",run:of,scope:"editor search-panel"},{key:"Mod-Shift-l",run:Rg},{key:"Mod-Alt-\
g",run:gg},{key:"Mod-d",run:Cg,preventDefault:!0}],_o=class{constructor(e){this.view=e;let t=this.query=e.state.field(pt).
query.spec;this.commit=this.commit.bind(this),this.searchField=H("input",{value:t.search,placeholder:we(e,"Find"),"aria-\
label":we(e,"Find"),class:"cm-textfield",name:"search",form:"","main-field":"true",onchange:this.commit,onkeyup:this.commit}),
this.replaceField=H("input",{value:t.replace,placeholder:we(e,"Replace"),"aria-label":we(e,"Replace"),class:"cm-textfiel\
d",name:"replace",form:"",onchange:this.commit,onkeyup:this.commit}),this.caseField=H("input",{type:"checkbox",name:"cas\
e",form:"",checked:t.caseSensitive,onchange:this.commit}),this.reField=H("input",{type:"checkbox",name:"re",form:"",checked:t.
regexp,onchange:this.commit}),this.wordField=H("input",{type:"checkbox",name:"word",form:"",checked:t.wholeWord,onchange:this.
commit});function i(s,r,o){return H("button",{class:"cm-button",name:s,onclick:r,type:"button"},o)}this.dom=H("div",{onkeydown:s=>this.
keydown(s),class:"cm-search"},[this.searchField,i("next",()=>Os(e),[we(e,"next")]),i("prev",()=>Bs(e),[we(e,"previous")]),
i("select",()=>Eg(e),[we(e,"all")]),H("label",null,[this.caseField,we(e,"match case")]),H("label",null,[this.reField,we(
e,"regexp")]),H("label",null,[this.wordField,we(e,"by word")]),...e.state.readOnly?[]:[H("br"),this.replaceField,i("repl\
ace",()=>Jc(e),[we(e,"replace")]),i("replaceAll",()=>Pg(e),[we(e,"replace all")])],H("button",{name:"close",onclick:()=>of(
e),"aria-label":we(e,"close"),type:"button"},["×"])])}commit(){let e=new As({search:this.searchField.value,caseSensitive:this.
caseField.checked,regexp:this.reField.checked,wholeWord:this.wordField.checked,replace:this.replaceField.value});e.eq(this.
query)||(this.query=e,this.view.dispatch({effects:Qi.of(e)}))}keydown(e){rh(this.view,e,"search-panel")?e.preventDefault():
e.keyCode==13&&e.target==this.searchField?(e.preventDefault(),(e.shiftKey?Bs:Os)(this.view)):e.keyCode==13&&e.target==this.
replaceField&&(e.preventDefault(),Jc(this.view))}update(e){for(let t of e.transactions)for(let i of t.effects)i.is(Qi)&&
!i.value.eq(this.query)&&this.setQuery(i.value)}setQuery(e){this.query=e,this.searchField.value=e.search,this.replaceField.
value=e.replace,this.caseField.checked=e.caseSensitive,this.reField.checked=e.regexp,this.wordField.checked=e.wholeWord}mount(){
this.searchField.select()}get pos(){return 80}get top(){return this.view.state.facet(Nt).top}};function we(n,e){return n.
state.phrase(e)}var xs=30,ws=/[\s\.,:;?!]/;function Zo(n,{from:e,to:t}){let i=n.state.doc.lineAt(e),s=n.state.doc.lineAt(
t).to,r=Math.max(i.from,e-xs),o=Math.min(s,t+xs),l=n.state.sliceDoc(r,o);if(r!=i.from){for(let a=0;a<xs;a++)if(!ws.test(
l[a+1])&&ws.test(l[a])){l=l.slice(a);break}}if(o!=s){for(let a=l.length-1;a>l.length-xs;a--)if(!ws.test(l[a-1])&&ws.test(
l[a])){l=l.slice(0,a);break}}return M.announce.of(`${n.state.phrase("current match")}. ${l} ${n.state.phrase("on line")}\
 ${i.number}.`)}var Ig=M.baseTheme({".cm-panel.cm-search":{padding:"2px 6px 4px",position:"relative","& [name=close]":{position:"\
absolute",top:"0",right:"4px",backgroundColor:"inherit",border:"none",font:"inherit",padding:0,margin:0},"& input, & but\
ton, & label":{margin:".2em .6em .2em 0"},"& input[type=checkbox]":{marginRight:".2em"},"& label":{fontSize:"80%",whiteSpace:"\
pre"}},"&light .cm-searchMatch":{backgroundColor:"#ffff0054"},"&dark .cm-searchMatch":{backgroundColor:"#00ffff8a"},"&li\
ght .cm-searchMatch-selected":{backgroundColor:"#ff6a0054"},"&dark .cm-searchMatch-selected":{backgroundColor:"#ff00ff8a"}}),
Yo=[pt,nt.low(Lg),Ig];var Ng=ai.define([{tag:w.comment,color:"var(--soft)",fontStyle:"italic"},{tag:[w.string,w.special(w.string)],color:"var(\
--good)"},{tag:[w.number,w.bool,w.atom],color:"var(--key)"},{tag:[w.keyword,w.heading],fontWeight:"bold"}]),Fg=M.theme({
"&":{color:"var(--ink)",backgroundColor:"var(--field)",border:"1px solid var(--line)",borderRadius:"6px",fontSize:"14px"},
"&.cm-focused":{outline:"3px solid var(--key)",outlineOffset:"1px"},".cm-scroller":{fontFamily:"ui-monospace, monospace",
lineHeight:"1.45"},".cm-content":{caretColor:"var(--ink)",minHeight:"220px"},".cm-gutters":{color:"var(--soft)",backgroundColor:"\
transparent",border:"0"},".cm-activeLine, .cm-activeLineGutter":{backgroundColor:"color-mix(in srgb, var(--line) 25%, tr\
ansparent)"},".cm-content ::selection, .cm-content::selection":{backgroundColor:"color-mix(in srgb, var(--key) 35%, tran\
sparent)"},".cm-panels, .cm-tooltip":{color:"var(--ink)",backgroundColor:"var(--paper)",borderColor:"var(--line)",fontSize:"\
14px"},".cm-panel.cm-search":{fontSize:"14px"},".cm-textfield, .cm-button":{color:"inherit",backgroundColor:"var(--field\
)",backgroundImage:"none",border:"1px solid var(--line)",minHeight:"32px"}}),Hg={find:"Find",with:"Replace",next:"next",
previous:"previous",all:"all",matchCase:"match case",regexp:"regexp",byWord:"by word",replace:"replace",replaceAll:"repl\
ace all",close:"close",goToLine:"Go to line",go:"go",problems:"Diagnostics",none:"No diagnostics",found:"current match",
onLine:"on line",replacedOne:"replaced match on line $",replaced:"replaced $ matches"};function Wg(n,e){let t=0,i=0,s=Math.
min(n.length,e.length);for(;t<s&&n[t]===e[t];)t++;for(;i<s-t&&n[n.length-1-i]===e[e.length-1-i];)i++;return{from:t,to:n.
length-i,insert:e.slice(t,e.length-i)}}function Vg(n,e){let t=Number((/:(\d+):\d+$/.exec(e.place)||[])[1]||0);if(t<1||t>
n.lines)return null;let i=n.line(t),s=[...i.text],r=a=>s.slice(0,a).join("").length,o=i.from+r(e.start||0),l=i.from+r((e.
start||0)+(e.length||0));return{from:o,to:Math.max(o,l)}}customElements.define("job-text",class extends HTMLElement{constructor(){
super();let n=M.updateListener.of(e=>{e.docChanged&&!e.transactions.every(t=>t.annotation(X.remote))&&this.dispatchEvent(
new Event("input"))});this.words=new Kt,this.view=new M({root:this.attachShadow({mode:"open"}),state:V.create({extensions:[
this.words.of([]),xh(),lh(),wh(),nc(),tf({top:!0}),ef(),ns.define(Pc),zh(Ng),_c(),M.lineWrapping,Fg,n,so.of([...lf,...qc,
...lc,...Rc]),M.contentAttributes.of(()=>({"aria-label":this.getAttribute("label")||"",autocapitalize:"off",autocorrect:"\
off",spellcheck:"false"}))]})}),this.shadowRoot.append(this.view.dom)}get value(){return this.view.state.doc.toString().
replaceAll(`
`,this.lineEnd||`
`)}set value(n){this.lineEnd=n.includes(`\r
`)?`\r
`:`
`;let e=this.view.state.doc.toString(),t=n.replace(/\r\n?/g,`
`);e!==t&&this.view.dispatch({changes:Wg(e,t),annotations:[X.remote.of(!0),X.addToHistory.of(!1)]})}set phrases(n){let e=Object.
entries(n).map(([t,i])=>[Hg[t],i]);this.view.dispatch({effects:this.words.reconfigure(V.phrases.of(Object.fromEntries(e)))})}get selected(){
let n=this.view.state.selection.main;return this.view.state.sliceDoc(n.from,n.to)}focus(){this.view.focus()}told(n){let e=this.
view.state.doc,t=n.map(i=>({...Vg(e,i),severity:i.severity,message:i.message+(i.hint?`
`+i.hint:"")}));this.view.dispatch(Wc(this.view.state,t.filter(i=>i.from!==void 0)))}toLine(n){let e=this.view.state.doc,
t=e.line(Math.min(Math.max(1,n),e.lines));this.view.dispatch({selection:{anchor:t.from,head:t.to},effects:M.scrollIntoView(
t.from,{y:"center"})}),this.focus()}});})();
