(()=>{var Cr={value:()=>{}};function vt(){for(var t=0,e=arguments.length,n={},r;t<e;++t){if(!(r=arguments[t]+"")||r in n||/[\s.]/.
test(r))throw new Error("illegal type: "+r);n[r]=[]}return new Dt(n)}function Dt(t){this._=t}function Or(t,e){return t.trim().
split(/^|\s+/).map(function(n){var r="",i=n.indexOf(".");if(i>=0&&(r=n.slice(i+1),n=n.slice(0,i)),n&&!e.hasOwnProperty(n))
throw new Error("unknown type: "+n);return{type:n,name:r}})}Dt.prototype=vt.prototype={constructor:Dt,on:function(t,e){var n=this.
_,r=Or(t+"",n),i,o=-1,u=r.length;if(arguments.length<2){for(;++o<u;)if((i=(t=r[o]).type)&&(i=$r(n[i],t.name)))return i;return}
if(e!=null&&typeof e!="function")throw new Error("invalid callback: "+e);for(;++o<u;)if(i=(t=r[o]).type)n[i]=Fe(n[i],t.name,
e);else if(e==null)for(i in n)n[i]=Fe(n[i],t.name,null);return this},copy:function(){var t={},e=this._;for(var n in e)t[n]=
e[n].slice();return new Dt(t)},call:function(t,e){if((i=arguments.length-2)>0)for(var n=new Array(i),r=0,i,o;r<i;++r)n[r]=
arguments[r+2];if(!this._.hasOwnProperty(t))throw new Error("unknown type: "+t);for(o=this._[t],r=0,i=o.length;r<i;++r)o[r].
value.apply(e,n)},apply:function(t,e,n){if(!this._.hasOwnProperty(t))throw new Error("unknown type: "+t);for(var r=this.
_[t],i=0,o=r.length;i<o;++i)r[i].value.apply(e,n)}};function $r(t,e){for(var n=0,r=t.length,i;n<r;++n)if((i=t[n]).name===
e)return i.value}function Fe(t,e,n){for(var r=0,i=t.length;r<i;++r)if(t[r].name===e){t[r]=Cr,t=t.slice(0,r).concat(t.slice(
r+1));break}return n!=null&&t.push({name:e,value:n}),t}var qt="http://www.w3.org/1999/xhtml",se={svg:"http://www.w3.org/2000/svg",xhtml:qt,xlink:"http://www.w3.org/1999/xlink",
xml:"http://www.w3.org/XML/1998/namespace",xmlns:"http://www.w3.org/2000/xmlns/"};function tt(t){var e=t+="",n=e.indexOf(":");return n>=0&&(e=t.slice(0,n))!=="xmlns"&&(t=t.slice(n+1)),se.hasOwnProperty(
e)?{space:se[e],local:t}:t}function Rr(t){return function(){var e=this.ownerDocument,n=this.namespaceURI;return n===qt&&e.documentElement.namespaceURI===
qt?e.createElement(t):e.createElementNS(n,t)}}function Dr(t){return function(){return this.ownerDocument.createElementNS(
t.space,t.local)}}function Pt(t){var e=tt(t);return(e.local?Dr:Rr)(e)}function qr(){}function rt(t){return t==null?qr:function(){return this.querySelector(t)}}function Le(t){typeof t!="function"&&(t=rt(t));for(var e=this._groups,n=e.length,r=new Array(n),i=0;i<n;++i)for(var o=e[i],
u=o.length,a=r[i]=new Array(u),s,c,l=0;l<u;++l)(s=o[l])&&(c=t.call(s,s.__data__,l,o))&&("__data__"in s&&(c.__data__=s.__data__),
a[l]=c);return new A(r,this._parents)}function ce(t){return t==null?[]:Array.isArray(t)?t:Array.from(t)}function Pr(){return[]}function _t(t){return t==null?Pr:function(){return this.querySelectorAll(t)}}function Br(t){return function(){return ce(t.apply(this,arguments))}}function Ve(t){typeof t=="function"?t=Br(t):t=_t(t);
for(var e=this._groups,n=e.length,r=[],i=[],o=0;o<n;++o)for(var u=e[o],a=u.length,s,c=0;c<a;++c)(s=u[c])&&(r.push(t.call(
s,s.__data__,c,u)),i.push(s));return new A(r,i)}function wt(t){return function(){return this.matches(t)}}function Bt(t){return function(e){return e.matches(t)}}var Xr=Array.prototype.find;function Hr(t){return function(){return Xr.call(this.children,t)}}function Fr(){return this.
firstElementChild}function Ye(t){return this.select(t==null?Fr:Hr(typeof t=="function"?t:Bt(t)))}var Lr=Array.prototype.filter;function Vr(){return Array.from(this.children)}function Yr(t){return function(){return Lr.
call(this.children,t)}}function Ge(t){return this.selectAll(t==null?Vr:Yr(typeof t=="function"?t:Bt(t)))}function Ue(t){typeof t!="function"&&(t=wt(t));for(var e=this._groups,n=e.length,r=new Array(n),i=0;i<n;++i)for(var o=e[i],
u=o.length,a=r[i]=[],s,c=0;c<u;++c)(s=o[c])&&t.call(s,s.__data__,c,o)&&a.push(s);return new A(r,this._parents)}function Xt(t){return new Array(t.length)}function Ke(){return new A(this._enter||this._groups.map(Xt),this._parents)}function bt(t,e){this.ownerDocument=t.ownerDocument,
this.namespaceURI=t.namespaceURI,this._next=null,this._parent=t,this.__data__=e}bt.prototype={constructor:bt,appendChild:function(t){
return this._parent.insertBefore(t,this._next)},insertBefore:function(t,e){return this._parent.insertBefore(t,e)},querySelector:function(t){
return this._parent.querySelector(t)},querySelectorAll:function(t){return this._parent.querySelectorAll(t)}};function Qe(t){return function(){return t}}function Gr(t,e,n,r,i,o){for(var u=0,a,s=e.length,c=o.length;u<c;++u)(a=e[u])?(a.__data__=o[u],r[u]=a):n[u]=new bt(t,o[u]);
for(;u<s;++u)(a=e[u])&&(i[u]=a)}function Ur(t,e,n,r,i,o,u){var a,s,c=new Map,l=e.length,p=o.length,m=new Array(l),d;for(a=
0;a<l;++a)(s=e[a])&&(m[a]=d=u.call(s,s.__data__,a,e)+"",c.has(d)?i[a]=s:c.set(d,s));for(a=0;a<p;++a)d=u.call(t,o[a],a,o)+
"",(s=c.get(d))?(r[a]=s,s.__data__=o[a],c.delete(d)):n[a]=new bt(t,o[a]);for(a=0;a<l;++a)(s=e[a])&&c.get(m[a])===s&&(i[a]=
s)}function Kr(t){return t.__data__}function Ze(t,e){if(!arguments.length)return Array.from(this,Kr);var n=e?Ur:Gr,r=this.
_parents,i=this._groups;typeof t!="function"&&(t=Qe(t));for(var o=i.length,u=new Array(o),a=new Array(o),s=new Array(o),
c=0;c<o;++c){var l=r[c],p=i[c],m=p.length,d=Qr(t.call(l,l&&l.__data__,c,r)),b=d.length,N=a[c]=new Array(b),S=u[c]=new Array(
b),x=s[c]=new Array(m);n(l,p,N,S,x,d,e);for(var T=0,z=0,H,$;T<b;++T)if(H=N[T]){for(T>=z&&(z=T+1);!($=S[z])&&++z<b;);H._next=
$||null}}return u=new A(u,r),u._enter=a,u._exit=s,u}function Qr(t){return typeof t=="object"&&"length"in t?t:Array.from(
t)}function We(){return new A(this._exit||this._groups.map(Xt),this._parents)}function Je(t,e,n){var r=this.enter(),i=this,o=this.exit();return typeof t=="function"?(r=t(r),r&&(r=r.selection())):r=r.
append(t+""),e!=null&&(i=e(i),i&&(i=i.selection())),n==null?o.remove():n(o),r&&i?r.merge(i).order():i}function je(t){for(var e=t.selection?t.selection():t,n=this._groups,r=e._groups,i=n.length,o=r.length,u=Math.min(i,o),a=new Array(
i),s=0;s<u;++s)for(var c=n[s],l=r[s],p=c.length,m=a[s]=new Array(p),d,b=0;b<p;++b)(d=c[b]||l[b])&&(m[b]=d);for(;s<i;++s)
a[s]=n[s];return new A(a,this._parents)}function tn(){for(var t=this._groups,e=-1,n=t.length;++e<n;)for(var r=t[e],i=r.length-1,o=r[i],u;--i>=0;)(u=r[i])&&(o&&u.
compareDocumentPosition(o)^4&&o.parentNode.insertBefore(u,o),o=u);return this}function en(t){t||(t=Zr);function e(p,m){return p&&m?t(p.__data__,m.__data__):!p-!m}for(var n=this._groups,r=n.length,i=new Array(
r),o=0;o<r;++o){for(var u=n[o],a=u.length,s=i[o]=new Array(a),c,l=0;l<a;++l)(c=u[l])&&(s[l]=c);s.sort(e)}return new A(i,
this._parents).order()}function Zr(t,e){return t<e?-1:t>e?1:t>=e?0:NaN}function nn(){var t=arguments[0];return arguments[0]=this,t.apply(null,arguments),this}function rn(){return Array.from(this)}function on(){for(var t=this._groups,e=0,n=t.length;e<n;++e)for(var r=t[e],i=0,o=r.length;i<o;++i){var u=r[i];if(u)return u}
return null}function un(){let t=0;for(let e of this)++t;return t}function an(){return!this.node()}function sn(t){for(var e=this._groups,n=0,r=e.length;n<r;++n)for(var i=e[n],o=0,u=i.length,a;o<u;++o)(a=i[o])&&t.call(a,
a.__data__,o,i);return this}function Wr(t){return function(){this.removeAttribute(t)}}function Jr(t){return function(){this.removeAttributeNS(t.space,
t.local)}}function jr(t,e){return function(){this.setAttribute(t,e)}}function ti(t,e){return function(){this.setAttributeNS(
t.space,t.local,e)}}function ei(t,e){return function(){var n=e.apply(this,arguments);n==null?this.removeAttribute(t):this.
setAttribute(t,n)}}function ni(t,e){return function(){var n=e.apply(this,arguments);n==null?this.removeAttributeNS(t.space,
t.local):this.setAttributeNS(t.space,t.local,n)}}function cn(t,e){var n=tt(t);if(arguments.length<2){var r=this.node();return n.
local?r.getAttributeNS(n.space,n.local):r.getAttribute(n)}return this.each((e==null?n.local?Jr:Wr:typeof e=="function"?n.
local?ni:ei:n.local?ti:jr)(n,e))}function Ht(t){return t.ownerDocument&&t.ownerDocument.defaultView||t.document&&t||t.defaultView}function ri(t){return function(){this.style.removeProperty(t)}}function ii(t,e,n){return function(){this.style.setProperty(
t,e,n)}}function oi(t,e,n){return function(){var r=e.apply(this,arguments);r==null?this.style.removeProperty(t):this.style.
setProperty(t,r,n)}}function fn(t,e,n){return arguments.length>1?this.each((e==null?ri:typeof e=="function"?oi:ii)(t,e,n??
"")):et(this.node(),t)}function et(t,e){return t.style.getPropertyValue(e)||Ht(t).getComputedStyle(t,null).getPropertyValue(
e)}function ui(t){return function(){delete this[t]}}function ai(t,e){return function(){this[t]=e}}function si(t,e){return function(){
var n=e.apply(this,arguments);n==null?delete this[t]:this[t]=n}}function ln(t,e){return arguments.length>1?this.each((e==
null?ui:typeof e=="function"?si:ai)(t,e)):this.node()[t]}function hn(t){return t.trim().split(/^|\s+/)}function fe(t){return t.classList||new pn(t)}function pn(t){this._node=t,this.
_names=hn(t.getAttribute("class")||"")}pn.prototype={add:function(t){var e=this._names.indexOf(t);e<0&&(this._names.push(
t),this._node.setAttribute("class",this._names.join(" ")))},remove:function(t){var e=this._names.indexOf(t);e>=0&&(this.
_names.splice(e,1),this._node.setAttribute("class",this._names.join(" ")))},contains:function(t){return this._names.indexOf(
t)>=0}};function mn(t,e){for(var n=fe(t),r=-1,i=e.length;++r<i;)n.add(e[r])}function dn(t,e){for(var n=fe(t),r=-1,i=e.length;++r<
i;)n.remove(e[r])}function ci(t){return function(){mn(this,t)}}function fi(t){return function(){dn(this,t)}}function li(t,e){
return function(){(e.apply(this,arguments)?mn:dn)(this,t)}}function gn(t,e){var n=hn(t+"");if(arguments.length<2){for(var r=fe(
this.node()),i=-1,o=n.length;++i<o;)if(!r.contains(n[i]))return!1;return!0}return this.each((typeof e=="function"?li:e?ci:
fi)(n,e))}function hi(){this.textContent=""}function pi(t){return function(){this.textContent=t}}function mi(t){return function(){
var e=t.apply(this,arguments);this.textContent=e??""}}function yn(t){return arguments.length?this.each(t==null?hi:(typeof t==
"function"?mi:pi)(t)):this.node().textContent}function di(){this.innerHTML=""}function gi(t){return function(){this.innerHTML=t}}function yi(t){return function(){var e=t.
apply(this,arguments);this.innerHTML=e??""}}function xn(t){return arguments.length?this.each(t==null?di:(typeof t=="func\
tion"?yi:gi)(t)):this.node().innerHTML}function xi(){this.nextSibling&&this.parentNode.appendChild(this)}function vn(){return this.each(xi)}function vi(){this.previousSibling&&this.parentNode.insertBefore(this,this.parentNode.firstChild)}function _n(){return this.
each(vi)}function wn(t){var e=typeof t=="function"?t:Pt(t);return this.select(function(){return this.appendChild(e.apply(this,arguments))})}function _i(){return null}function bn(t,e){var n=typeof t=="function"?t:Pt(t),r=e==null?_i:typeof e=="function"?e:rt(e);
return this.select(function(){return this.insertBefore(n.apply(this,arguments),r.apply(this,arguments)||null)})}function wi(){var t=this.parentNode;t&&t.removeChild(this)}function Mn(){return this.each(wi)}function bi(){var t=this.cloneNode(!1),e=this.parentNode;return e?e.insertBefore(t,this.nextSibling):t}function Mi(){var t=this.
cloneNode(!0),e=this.parentNode;return e?e.insertBefore(t,this.nextSibling):t}function Nn(t){return this.select(t?Mi:bi)}function An(t){return arguments.length?this.property("__data__",t):this.node().__data__}function Ni(t){return function(e){t.call(this,e,this.__data__)}}function Ai(t){return t.trim().split(/^|\s+/).map(function(e){
var n="",r=e.indexOf(".");return r>=0&&(n=e.slice(r+1),e=e.slice(0,r)),{type:e,name:n}})}function Ei(t){return function(){
var e=this.__on;if(e){for(var n=0,r=-1,i=e.length,o;n<i;++n)o=e[n],(!t.type||o.type===t.type)&&o.name===t.name?this.removeEventListener(
o.type,o.listener,o.options):e[++r]=o;++r?e.length=r:delete this.__on}}}function Ii(t,e,n){return function(){var r=this.
__on,i,o=Ni(e);if(r){for(var u=0,a=r.length;u<a;++u)if((i=r[u]).type===t.type&&i.name===t.name){this.removeEventListener(
i.type,i.listener,i.options),this.addEventListener(i.type,i.listener=o,i.options=n),i.value=e;return}}this.addEventListener(
t.type,o,n),i={type:t.type,name:t.name,value:e,listener:o,options:n},r?r.push(i):this.__on=[i]}}function En(t,e,n){var r=Ai(
t+""),i,o=r.length,u;if(arguments.length<2){var a=this.node().__on;if(a){for(var s=0,c=a.length,l;s<c;++s)for(i=0,l=a[s];i<
o;++i)if((u=r[i]).type===l.type&&u.name===l.name)return l.value}return}for(a=e?Ii:Ei,i=0;i<o;++i)this.each(a(r[i],e,n));
return this}function In(t,e,n){var r=Ht(t),i=r.CustomEvent;typeof i=="function"?i=new i(e,n):(i=r.document.createEvent("Event"),n?(i.
initEvent(e,n.bubbles,n.cancelable),i.detail=n.detail):i.initEvent(e,!1,!1)),t.dispatchEvent(i)}function ki(t,e){return function(){
return In(this,t,e)}}function Si(t,e){return function(){return In(this,t,e.apply(this,arguments))}}function kn(t,e){return this.
each((typeof e=="function"?Si:ki)(t,e))}function*Sn(){for(var t=this._groups,e=0,n=t.length;e<n;++e)for(var r=t[e],i=0,o=r.length,u;i<o;++i)(u=r[i])&&(yield u)}var le=[null];function A(t,e){this._groups=t,this._parents=e}function Tn(){return new A([[document.documentElement]],le)}
function Ti(){return this}A.prototype=Tn.prototype={constructor:A,select:Le,selectAll:Ve,selectChild:Ye,selectChildren:Ge,
filter:Ue,data:Ze,enter:Ke,exit:We,join:Je,merge:je,selection:Ti,order:tn,sort:en,call:nn,nodes:rn,node:on,size:un,empty:an,
each:sn,attr:cn,style:fn,property:ln,classed:gn,text:yn,html:xn,raise:vn,lower:_n,append:wn,insert:bn,remove:Mn,clone:Nn,
datum:An,on:En,dispatch:kn,[Symbol.iterator]:Sn};var it=Tn;function O(t){return typeof t=="string"?new A([[document.querySelector(t)]],[document.documentElement]):new A([[t]],le)}function zn(t){let e;for(;e=t.sourceEvent;)t=e;return t}function L(t,e){if(t=zn(t),e===void 0&&(e=t.currentTarget),e){var n=e.ownerSVGElement||e;if(n.createSVGPoint){var r=n.createSVGPoint();
return r.x=t.clientX,r.y=t.clientY,r=r.matrixTransform(e.getScreenCTM().inverse()),[r.x,r.y]}if(e.getBoundingClientRect){
var i=e.getBoundingClientRect();return[t.clientX-i.left-e.clientLeft,t.clientY-i.top-e.clientTop]}}return[t.pageX,t.pageY]}var he={capture:!0,passive:!1};function pe(t){t.preventDefault(),t.stopImmediatePropagation()}function Cn(t){var e=t.document.documentElement,n=O(t).on(
"dragstart.drag",pe,he);"onselectstart"in e?n.on("selectstart.drag",pe,he):(e.__noselect=e.style.MozUserSelect,e.style.MozUserSelect=
"none")}function On(t,e){var n=t.document.documentElement,r=O(t).on("dragstart.drag",null);e&&(r.on("click.drag",pe,he),
setTimeout(function(){r.on("click.drag",null)},0)),"onselectstart"in n?r.on("selectstart.drag",null):(n.style.MozUserSelect=
n.__noselect,delete n.__noselect)}function zi(t,{sourceEvent:e,subject:n,target:r,identifier:i,active:o,x:u,y:a,dx:s,dy:c,dispatch:l}){Object.defineProperties(
this,{type:{value:t,enumerable:!0,configurable:!0},sourceEvent:{value:e,enumerable:!0,configurable:!0},subject:{value:n,
enumerable:!0,configurable:!0},target:{value:r,enumerable:!0,configurable:!0},identifier:{value:i,enumerable:!0,configurable:!0},
active:{value:o,enumerable:!0,configurable:!0},x:{value:u,enumerable:!0,configurable:!0},y:{value:a,enumerable:!0,configurable:!0},
dx:{value:s,enumerable:!0,configurable:!0},dy:{value:c,enumerable:!0,configurable:!0},_:{value:l}})}zi.prototype.on=function(){
var t=this._.on.apply(this._,arguments);return t===this._?this:t};function dt(t,e,n){t.prototype=e.prototype=n,n.constructor=t}function At(t,e){var n=Object.create(t.prototype);for(var r in e)
n[r]=e[r];return n}function nt(){}var st=.7,mt=1/st,ht="\\s*([+-]?\\d+)\\s*",Mt="\\s*([+-]?(?:\\d*\\.)?\\d+(?:[eE][+-]?\\d+)?\
)\\s*",V="\\s*([+-]?(?:\\d*\\.)?\\d+(?:[eE][+-]?\\d+)?)%\\s*",Ci=/^#([0-9a-f]{3,8})$/,Oi=new RegExp(`^rgb\\(${ht},${ht},${ht}\
\\)$`),$i=new RegExp(`^rgb\\(${V},${V},${V}\\)$`),Ri=new RegExp(`^rgba\\(${ht},${ht},${ht},${Mt}\\)$`),Di=new RegExp(`^r\
gba\\(${V},${V},${V},${Mt}\\)$`),qi=new RegExp(`^hsl\\(${Mt},${V},${V}\\)$`),Pi=new RegExp(`^hsla\\(${Mt},${V},${V},${Mt}\
\\)$`),$n={aliceblue:15792383,antiquewhite:16444375,aqua:65535,aquamarine:8388564,azure:15794175,beige:16119260,bisque:16770244,
black:0,blanchedalmond:16772045,blue:255,blueviolet:9055202,brown:10824234,burlywood:14596231,cadetblue:6266528,chartreuse:8388352,
chocolate:13789470,coral:16744272,cornflowerblue:6591981,cornsilk:16775388,crimson:14423100,cyan:65535,darkblue:139,darkcyan:35723,
darkgoldenrod:12092939,darkgray:11119017,darkgreen:25600,darkgrey:11119017,darkkhaki:12433259,darkmagenta:9109643,darkolivegreen:5597999,
darkorange:16747520,darkorchid:10040012,darkred:9109504,darksalmon:15308410,darkseagreen:9419919,darkslateblue:4734347,darkslategray:3100495,
darkslategrey:3100495,darkturquoise:52945,darkviolet:9699539,deeppink:16716947,deepskyblue:49151,dimgray:6908265,dimgrey:6908265,
dodgerblue:2003199,firebrick:11674146,floralwhite:16775920,forestgreen:2263842,fuchsia:16711935,gainsboro:14474460,ghostwhite:16316671,
gold:16766720,goldenrod:14329120,gray:8421504,green:32768,greenyellow:11403055,grey:8421504,honeydew:15794160,hotpink:16738740,
indianred:13458524,indigo:4915330,ivory:16777200,khaki:15787660,lavender:15132410,lavenderblush:16773365,lawngreen:8190976,
lemonchiffon:16775885,lightblue:11393254,lightcoral:15761536,lightcyan:14745599,lightgoldenrodyellow:16448210,lightgray:13882323,
lightgreen:9498256,lightgrey:13882323,lightpink:16758465,lightsalmon:16752762,lightseagreen:2142890,lightskyblue:8900346,
lightslategray:7833753,lightslategrey:7833753,lightsteelblue:11584734,lightyellow:16777184,lime:65280,limegreen:3329330,
linen:16445670,magenta:16711935,maroon:8388608,mediumaquamarine:6737322,mediumblue:205,mediumorchid:12211667,mediumpurple:9662683,
mediumseagreen:3978097,mediumslateblue:8087790,mediumspringgreen:64154,mediumturquoise:4772300,mediumvioletred:13047173,
midnightblue:1644912,mintcream:16121850,mistyrose:16770273,moccasin:16770229,navajowhite:16768685,navy:128,oldlace:16643558,
olive:8421376,olivedrab:7048739,orange:16753920,orangered:16729344,orchid:14315734,palegoldenrod:15657130,palegreen:10025880,
paleturquoise:11529966,palevioletred:14381203,papayawhip:16773077,peachpuff:16767673,peru:13468991,pink:16761035,plum:14524637,
powderblue:11591910,purple:8388736,rebeccapurple:6697881,red:16711680,rosybrown:12357519,royalblue:4286945,saddlebrown:9127187,
salmon:16416882,sandybrown:16032864,seagreen:3050327,seashell:16774638,sienna:10506797,silver:12632256,skyblue:8900331,slateblue:6970061,
slategray:7372944,slategrey:7372944,snow:16775930,springgreen:65407,steelblue:4620980,tan:13808780,teal:32896,thistle:14204888,
tomato:16737095,turquoise:4251856,violet:15631086,wheat:16113331,white:16777215,whitesmoke:16119285,yellow:16776960,yellowgreen:10145074};
dt(nt,ct,{copy(t){return Object.assign(new this.constructor,this,t)},displayable(){return this.rgb().displayable()},hex:Rn,
formatHex:Rn,formatHex8:Bi,formatHsl:Xi,formatRgb:Dn,toString:Dn});function Rn(){return this.rgb().formatHex()}function Bi(){
return this.rgb().formatHex8()}function Xi(){return Yn(this).formatHsl()}function Dn(){return this.rgb().formatRgb()}function ct(t){
var e,n;return t=(t+"").trim().toLowerCase(),(e=Ci.exec(t))?(n=e[1].length,e=parseInt(e[1],16),n===6?qn(e):n===3?new I(e>>
8&15|e>>4&240,e>>4&15|e&240,(e&15)<<4|e&15,1):n===8?Ft(e>>24&255,e>>16&255,e>>8&255,(e&255)/255):n===4?Ft(e>>12&15|e>>8&
240,e>>8&15|e>>4&240,e>>4&15|e&240,((e&15)<<4|e&15)/255):null):(e=Oi.exec(t))?new I(e[1],e[2],e[3],1):(e=$i.exec(t))?new I(
e[1]*255/100,e[2]*255/100,e[3]*255/100,1):(e=Ri.exec(t))?Ft(e[1],e[2],e[3],e[4]):(e=Di.exec(t))?Ft(e[1]*255/100,e[2]*255/
100,e[3]*255/100,e[4]):(e=qi.exec(t))?Xn(e[1],e[2]/100,e[3]/100,1):(e=Pi.exec(t))?Xn(e[1],e[2]/100,e[3]/100,e[4]):$n.hasOwnProperty(
t)?qn($n[t]):t==="transparent"?new I(NaN,NaN,NaN,0):null}function qn(t){return new I(t>>16&255,t>>8&255,t&255,1)}function Ft(t,e,n,r){
return r<=0&&(t=e=n=NaN),new I(t,e,n,r)}function ve(t){return t instanceof nt||(t=ct(t)),t?(t=t.rgb(),new I(t.r,t.g,t.b,
t.opacity)):new I}function Et(t,e,n,r){return arguments.length===1?ve(t):new I(t,e,n,r??1)}function I(t,e,n,r){this.r=+t,
this.g=+e,this.b=+n,this.opacity=+r}dt(I,Et,At(nt,{brighter(t){return t=t==null?mt:Math.pow(mt,t),new I(this.r*t,this.g*
t,this.b*t,this.opacity)},darker(t){return t=t==null?st:Math.pow(st,t),new I(this.r*t,this.g*t,this.b*t,this.opacity)},rgb(){
return this},clamp(){return new I(ut(this.r),ut(this.g),ut(this.b),Vt(this.opacity))},displayable(){return-.5<=this.r&&this.
r<255.5&&-.5<=this.g&&this.g<255.5&&-.5<=this.b&&this.b<255.5&&0<=this.opacity&&this.opacity<=1},hex:Pn,formatHex:Pn,formatHex8:Hi,
formatRgb:Bn,toString:Bn}));function Pn(){return`#${ot(this.r)}${ot(this.g)}${ot(this.b)}`}function Hi(){return`#${ot(this.
r)}${ot(this.g)}${ot(this.b)}${ot((isNaN(this.opacity)?1:this.opacity)*255)}`}function Bn(){let t=Vt(this.opacity);return`${t===
1?"rgb(":"rgba("}${ut(this.r)}, ${ut(this.g)}, ${ut(this.b)}${t===1?")":`, ${t})`}`}function Vt(t){return isNaN(t)?1:Math.
max(0,Math.min(1,t))}function ut(t){return Math.max(0,Math.min(255,Math.round(t)||0))}function ot(t){return t=ut(t),(t<16?
"0":"")+t.toString(16)}function Xn(t,e,n,r){return r<=0?t=e=n=NaN:n<=0||n>=1?t=e=NaN:e<=0&&(t=NaN),new P(t,e,n,r)}function Yn(t){
if(t instanceof P)return new P(t.h,t.s,t.l,t.opacity);if(t instanceof nt||(t=ct(t)),!t)return new P;if(t instanceof P)return t;
t=t.rgb();var e=t.r/255,n=t.g/255,r=t.b/255,i=Math.min(e,n,r),o=Math.max(e,n,r),u=NaN,a=o-i,s=(o+i)/2;return a?(e===o?u=
(n-r)/a+(n<r)*6:n===o?u=(r-e)/a+2:u=(e-n)/a+4,a/=s<.5?o+i:2-o-i,u*=60):a=s>0&&s<1?0:u,new P(u,a,s,t.opacity)}function Gt(t,e,n,r){
return arguments.length===1?Yn(t):new P(t,e,n,r??1)}function P(t,e,n,r){this.h=+t,this.s=+e,this.l=+n,this.opacity=+r}dt(
P,Gt,At(nt,{brighter(t){return t=t==null?mt:Math.pow(mt,t),new P(this.h,this.s,this.l*t,this.opacity)},darker(t){return t=
t==null?st:Math.pow(st,t),new P(this.h,this.s,this.l*t,this.opacity)},rgb(){var t=this.h%360+(this.h<0)*360,e=isNaN(t)||
isNaN(this.s)?0:this.s,n=this.l,r=n+(n<.5?n:1-n)*e,i=2*n-r;return new I(me(t>=240?t-240:t+120,i,r),me(t,i,r),me(t<120?t+
240:t-120,i,r),this.opacity)},clamp(){return new P(Hn(this.h),Lt(this.s),Lt(this.l),Vt(this.opacity))},displayable(){return(0<=
this.s&&this.s<=1||isNaN(this.s))&&0<=this.l&&this.l<=1&&0<=this.opacity&&this.opacity<=1},formatHsl(){let t=Vt(this.opacity);
return`${t===1?"hsl(":"hsla("}${Hn(this.h)}, ${Lt(this.s)*100}%, ${Lt(this.l)*100}%${t===1?")":`, ${t})`}`}}));function Hn(t){
return t=(t||0)%360,t<0?t+360:t}function Lt(t){return Math.max(0,Math.min(1,t||0))}function me(t,e,n){return(t<60?e+(n-e)*
t/60:t<180?n:t<240?e+(n-e)*(240-t)/60:e)*255}var Gn=Math.PI/180,Un=180/Math.PI,Yt=18,Kn=.96422,Qn=1,Zn=.82521,Wn=4/29,pt=6/
29,Jn=3*pt*pt,Fi=pt*pt*pt;function jn(t){if(t instanceof Y)return new Y(t.l,t.a,t.b,t.opacity);if(t instanceof Q)return er(
t);t instanceof I||(t=ve(t));var e=xe(t.r),n=xe(t.g),r=xe(t.b),i=de((.2225045*e+.7168786*n+.0606169*r)/Qn),o,u;return e===
n&&n===r?o=u=i:(o=de((.4360747*e+.3850649*n+.1430804*r)/Kn),u=de((.0139322*e+.0971045*n+.7141733*r)/Zn)),new Y(116*i-16,
500*(o-i),200*(i-u),t.opacity)}function tr(t,e,n,r){return arguments.length===1?jn(t):new Y(t,e,n,r??1)}function Y(t,e,n,r){this.l=+t,this.a=+e,this.b=
+n,this.opacity=+r}dt(Y,tr,At(nt,{brighter(t){return new Y(this.l+Yt*(t??1),this.a,this.b,this.opacity)},darker(t){return new Y(
this.l-Yt*(t??1),this.a,this.b,this.opacity)},rgb(){var t=(this.l+16)/116,e=isNaN(this.a)?t:t+this.a/500,n=isNaN(this.b)?
t:t-this.b/200;return e=Kn*ge(e),t=Qn*ge(t),n=Zn*ge(n),new I(ye(3.1338561*e-1.6168667*t-.4906146*n),ye(-.9787684*e+1.9161415*
t+.033454*n),ye(.0719453*e-.2289914*t+1.4052427*n),this.opacity)}}));function de(t){return t>Fi?Math.pow(t,1/3):t/Jn+Wn}
function ge(t){return t>pt?t*t*t:Jn*(t-Wn)}function ye(t){return 255*(t<=.0031308?12.92*t:1.055*Math.pow(t,1/2.4)-.055)}
function xe(t){return(t/=255)<=.04045?t/12.92:Math.pow((t+.055)/1.055,2.4)}function Li(t){if(t instanceof Q)return new Q(
t.h,t.c,t.l,t.opacity);if(t instanceof Y||(t=jn(t)),t.a===0&&t.b===0)return new Q(NaN,0<t.l&&t.l<100?0:NaN,t.l,t.opacity);
var e=Math.atan2(t.b,t.a)*Un;return new Q(e<0?e+360:e,Math.sqrt(t.a*t.a+t.b*t.b),t.l,t.opacity)}function Ut(t,e,n,r){return arguments.length===1?Li(t):new Q(t,e,n,r??1)}function Q(t,e,n,r){this.h=+t,this.c=+e,this.l=
+n,this.opacity=+r}function er(t){if(isNaN(t.h))return new Y(t.l,0,0,t.opacity);var e=t.h*Gn;return new Y(t.l,Math.cos(e)*
t.c,Math.sin(e)*t.c,t.opacity)}dt(Q,Ut,At(nt,{brighter(t){return new Q(this.h,this.c,this.l+Yt*(t??1),this.opacity)},darker(t){
return new Q(this.h,this.c,this.l-Yt*(t??1),this.opacity)},rgb(){return er(this).rgb()}}));var nr=-.14861,_e=1.78277,we=-.29227,
Kt=-.90649,Nt=1.97294,Fn=Nt*Kt,Ln=Nt*_e,Vn=_e*we-Kt*nr;function Vi(t){if(t instanceof at)return new at(t.h,t.s,t.l,t.opacity);
t instanceof I||(t=ve(t));var e=t.r/255,n=t.g/255,r=t.b/255,i=(Vn*r+Fn*e-Ln*n)/(Vn+Fn-Ln),o=r-i,u=(Nt*(n-i)-we*o)/Kt,a=Math.
sqrt(u*u+o*o)/(Nt*i*(1-i)),s=a?Math.atan2(u,o)*Un-120:NaN;return new at(s<0?s+360:s,a,i,t.opacity)}function Qt(t,e,n,r){
return arguments.length===1?Vi(t):new at(t,e,n,r??1)}function at(t,e,n,r){this.h=+t,this.s=+e,this.l=+n,this.opacity=+r}
dt(at,Qt,At(nt,{brighter(t){return t=t==null?mt:Math.pow(mt,t),new at(this.h,this.s,this.l*t,this.opacity)},darker(t){return t=
t==null?st:Math.pow(st,t),new at(this.h,this.s,this.l*t,this.opacity)},rgb(){var t=isNaN(this.h)?0:(this.h+120)*Gn,e=+this.
l,n=isNaN(this.s)?0:this.s*e*(1-e),r=Math.cos(t),i=Math.sin(t);return new I(255*(e+n*(nr*r+_e*i)),255*(e+n*(we*r+Kt*i)),
255*(e+n*(Nt*r)),this.opacity)}}));function or(t,e,n,r,i){var o=t*t,u=o*t;return((1-3*t+3*o-u)*e+(4-6*o+3*u)*n+(1+3*t+3*o-3*u)*r+u*i)/6}function Yi(t){var e=t.
length-1;return function(n){var r=n<=0?n=0:n>=1?(n=1,e-1):Math.floor(n*e),i=t[r],o=t[r+1],u=r>0?t[r-1]:2*i-o,a=r<e-1?t[r+
2]:2*o-i;return or((n-r/e)*e,u,i,o,a)}}function Gi(t){var e=t.length;return function(n){var r=Math.floor(((n%=1)<0?++n:n)*
e),i=t[(r+e-1)%e],o=t[r%e],u=t[(r+1)%e],a=t[(r+2)%e];return or((n-r/e)*e,i,o,u,a)}}var Ae=t=>()=>t;function ur(t,e){return function(n){
return t+n*e}}function Ui(t,e,n){return t=Math.pow(t,n),e=Math.pow(e,n)-t,n=1/n,function(r){return Math.pow(t+r*e,n)}}function Ee(t,e){
var n=e-t;return n?ur(t,n>180||n<-180?n-360*Math.round(n/360):n):Ae(isNaN(t)?e:t)}function Ki(t){return(t=+t)==1?C:function(e,n){
return n-e?Ui(e,n,t):Ae(isNaN(e)?n:e)}}function C(t,e){var n=e-t;return n?ur(t,n):Ae(isNaN(t)?e:t)}var Ie=(function t(e){
var n=Ki(e);function r(i,o){var u=n((i=Et(i)).r,(o=Et(o)).r),a=n(i.g,o.g),s=n(i.b,o.b),c=C(i.opacity,o.opacity);return function(l){
return i.r=u(l),i.g=a(l),i.b=s(l),i.opacity=c(l),i+""}}return r.gamma=t,r})(1);function ar(t){return function(e){var n=e.
length,r=new Array(n),i=new Array(n),o=new Array(n),u,a;for(u=0;u<n;++u)a=Et(e[u]),r[u]=a.r||0,i[u]=a.g||0,o[u]=a.b||0;return r=
t(r),i=t(i),o=t(o),a.opacity=1,function(s){return a.r=r(s),a.g=i(s),a.b=o(s),a+""}}}var qs=ar(Yi),Ps=ar(Gi);function Z(t,e){return t=+t,e=+e,function(n){return t*(1-n)+e*n}}var Me=/[-+]?(?:\d+\.?\d*|\.?\d+)(?:[eE][-+]?\d+)?/g,be=new RegExp(Me.source,"g");function Qi(t){return function(){return t}}
function Zi(t){return function(e){return t(e)+""}}function sr(t,e){var n=Me.lastIndex=be.lastIndex=0,r,i,o,u=-1,a=[],s=[];
for(t=t+"",e=e+"";(r=Me.exec(t))&&(i=be.exec(e));)(o=i.index)>n&&(o=e.slice(n,o),a[u]?a[u]+=o:a[++u]=o),(r=r[0])===(i=i[0])?
a[u]?a[u]+=i:a[++u]=i:(a[++u]=null,s.push({i:u,x:Z(r,i)})),n=be.lastIndex;return n<e.length&&(o=e.slice(n),a[u]?a[u]+=o:
a[++u]=o),a.length<2?s[0]?Zi(s[0].x):Qi(e):(e=s.length,function(c){for(var l=0,p;l<e;++l)a[(p=s[l]).i]=p.x(c);return a.join(
"")})}var rr=180/Math.PI,Ne={translateX:0,translateY:0,rotate:0,skewX:0,scaleX:1,scaleY:1};function cr(t,e,n,r,i,o){var u,a,s;
return(u=Math.sqrt(t*t+e*e))&&(t/=u,e/=u),(s=t*n+e*r)&&(n-=t*s,r-=e*s),(a=Math.sqrt(n*n+r*r))&&(n/=a,r/=a,s/=a),t*r<e*n&&
(t=-t,e=-e,s=-s,u=-u),{translateX:i,translateY:o,rotate:Math.atan2(e,t)*rr,skewX:Math.atan(s)*rr,scaleX:u,scaleY:a}}var Zt;
function Wi(t){let e=new(typeof DOMMatrix=="function"?DOMMatrix:WebKitCSSMatrix)(t+"");return e.isIdentity?Ne:cr(e.a,e.b,
e.c,e.d,e.e,e.f)}function Ji(t){return t==null||(Zt||(Zt=document.createElementNS("http://www.w3.org/2000/svg","g")),Zt.
setAttribute("transform",t),!(t=Zt.transform.baseVal.consolidate()))?Ne:(t=t.matrix,cr(t.a,t.b,t.c,t.d,t.e,t.f))}function fr(t,e,n,r){
function i(c){return c.length?c.pop()+" ":""}function o(c,l,p,m,d,b){if(c!==p||l!==m){var N=d.push("translate(",null,e,null,
n);b.push({i:N-4,x:Z(c,p)},{i:N-2,x:Z(l,m)})}else(p||m)&&d.push("translate("+p+e+m+n)}function u(c,l,p,m){c!==l?(c-l>180?
l+=360:l-c>180&&(c+=360),m.push({i:p.push(i(p)+"rotate(",null,r)-2,x:Z(c,l)})):l&&p.push(i(p)+"rotate("+l+r)}function a(c,l,p,m){
c!==l?m.push({i:p.push(i(p)+"skewX(",null,r)-2,x:Z(c,l)}):l&&p.push(i(p)+"skewX("+l+r)}function s(c,l,p,m,d,b){if(c!==p||
l!==m){var N=d.push(i(d)+"scale(",null,",",null,")");b.push({i:N-4,x:Z(c,p)},{i:N-2,x:Z(l,m)})}else(p!==1||m!==1)&&d.push(
i(d)+"scale("+p+","+m+")")}return function(c,l){var p=[],m=[];return c=t(c),l=t(l),o(c.translateX,c.translateY,l.translateX,
l.translateY,p,m),u(c.rotate,l.rotate,p,m),a(c.skewX,l.skewX,p,m),s(c.scaleX,c.scaleY,l.scaleX,l.scaleY,p,m),c=l=null,function(d){
for(var b=-1,N=m.length,S;++b<N;)p[(S=m[b]).i]=S.x(d);return p.join("")}}}var lr=fr(Wi,"px, ","px)","deg)"),hr=fr(Ji,", ",
")",")"),ji=1e-12;function ir(t){return((t=Math.exp(t))+1/t)/2}function to(t){return((t=Math.exp(t))-1/t)/2}function eo(t){
return((t=Math.exp(2*t))-1)/(t+1)}var pr=(function t(e,n,r){function i(o,u){var a=o[0],s=o[1],c=o[2],l=u[0],p=u[1],m=u[2],
d=l-a,b=p-s,N=d*d+b*b,S,x;if(N<ji)x=Math.log(m/c)/e,S=function(j){return[a+j*d,s+j*b,c*Math.exp(e*j*x)]};else{var T=Math.
sqrt(N),z=(m*m-c*c+r*N)/(2*c*n*T),H=(m*m-c*c-r*N)/(2*m*n*T),$=Math.log(Math.sqrt(z*z+1)-z),R=Math.log(Math.sqrt(H*H+1)-H);
x=(R-$)/e,S=function(j){var Ot=j*x,$t=ir($),Rt=c/(n*T)*($t*eo(e*Ot+$)-to($));return[a+Rt*d,s+Rt*b,c*$t/ir(e*Ot+$)]}}return S.
duration=Math.abs(x)*1e3*e/Math.SQRT2,S}return i.rho=function(o){var u=Math.max(.001,+o),a=u*u,s=a*a;return t(u,a,s)},i})(
Math.SQRT2,2,4);function mr(t){return function(e,n){var r=t((e=Gt(e)).h,(n=Gt(n)).h),i=C(e.s,n.s),o=C(e.l,n.l),u=C(e.opacity,
n.opacity);return function(a){return e.h=r(a),e.s=i(a),e.l=o(a),e.opacity=u(a),e+""}}}var Bs=mr(Ee),Xs=mr(C);function dr(t){return function(e,n){var r=t((e=Ut(e)).h,(n=Ut(n)).h),i=C(e.c,n.c),o=C(e.l,n.l),u=C(e.opacity,n.opacity);
return function(a){return e.h=r(a),e.c=i(a),e.l=o(a),e.opacity=u(a),e+""}}}var Hs=dr(Ee),Fs=dr(C);function gr(t){return(function e(n){
n=+n;function r(i,o){var u=t((i=Qt(i)).h,(o=Qt(o)).h),a=C(i.s,o.s),s=C(i.l,o.l),c=C(i.opacity,o.opacity);return function(l){
return i.h=u(l),i.s=a(l),i.l=s(Math.pow(l,n)),i.opacity=c(l),i+""}}return r.gamma=e,r})(1)}var Ls=gr(Ee),Vs=gr(C);var gt=0,kt=0,It=0,xr=1e3,Wt,St,Jt=0,ft=0,te=0,Tt=typeof performance=="object"&&performance.now?performance:Date,vr=typeof window==
"object"&&window.requestAnimationFrame?window.requestAnimationFrame.bind(window):function(t){setTimeout(t,17)};function ee(){
return ft||(vr(no),ft=Tt.now()+te)}function no(){ft=0}function jt(){this._call=this._time=this._next=null}jt.prototype=Se.
prototype={constructor:jt,restart:function(t,e,n){if(typeof t!="function")throw new TypeError("callback is not a functio\
n");n=(n==null?ee():+n)+(e==null?0:+e),!this._next&&St!==this&&(St?St._next=this:Wt=this,St=this),this._call=t,this._time=
n,ke()},stop:function(){this._call&&(this._call=null,this._time=1/0,ke())}};function Se(t,e,n){var r=new jt;return r.restart(
t,e,n),r}function ro(){ee(),++gt;for(var t=Wt,e;t;)(e=ft-t._time)>=0&&t._call.call(void 0,e),t=t._next;--gt}function yr(){
ft=(Jt=Tt.now())+te,gt=kt=0;try{ro()}finally{gt=0,oo(),ft=0}}function io(){var t=Tt.now(),e=t-Jt;e>xr&&(te-=e,Jt=t)}function oo(){
for(var t,e=Wt,n,r=1/0;e;)e._call?(r>e._time&&(r=e._time),t=e,e=e._next):(n=e._next,e._next=null,e=t?t._next=n:Wt=n);St=
t,ke(r)}function ke(t){if(!gt){kt&&(kt=clearTimeout(kt));var e=t-ft;e>24?(t<1/0&&(kt=setTimeout(yr,Math.ceil(t-Tt.now()-
te)+1)),It&&(It=clearInterval(It))):(It||(Jt=Tt.now(),It=setInterval(io,xr)),gt=1,vr(yr))}}function Te(t,e,n){var r=new jt;
return e=e==null?0:+e,r.restart(i=>{r.stop(),t(i+e)},e,n),r}function wr(t){return((t*=2)<=1?t*t*t:(t-=2)*t*t+2)/2}var ze=3,Us=(function t(e){e=+e;function n(r){return Math.pow(r,e)}
return n.exponent=t,n})(ze),Ks=(function t(e){e=+e;function n(r){return 1-Math.pow(1-r,e)}return n.exponent=t,n})(ze),Qs=(function t(e){
e=+e;function n(r){return((r*=2)<=1?Math.pow(r,e):2-Math.pow(2-r,e))/2}return n.exponent=t,n})(ze),uo=Math.PI,Zs=uo/2;function ne(t){return(Math.pow(2,-10*t)-.0009765625)*1.0009775171065494}var _r=4/11,Ws=6/11,Js=8/11,js=3/4,tc=9/11,ec=10/11,nc=15/16,rc=21/22,ic=63/64,oc=1/_r/_r;var Ce=1.70158,uc=(function t(e){e=+e;function n(r){return(r=+r)*r*(e*(r-1)+r)}return n.overshoot=t,n})(Ce),ac=(function t(e){
e=+e;function n(r){return--r*r*((r+1)*e+r)+1}return n.overshoot=t,n})(Ce),sc=(function t(e){e=+e;function n(r){return((r*=
2)<1?r*r*((e+1)*r-e):(r-=2)*r*((e+1)*r+e)+2)/2}return n.overshoot=t,n})(Ce),yt=2*Math.PI,Oe=1,$e=.3,cc=(function t(e,n){
var r=Math.asin(1/(e=Math.max(1,e)))*(n/=yt);function i(o){return e*ne(- --o)*Math.sin((r-o)/n)}return i.amplitude=function(o){
return t(o,n*yt)},i.period=function(o){return t(e,o)},i})(Oe,$e),fc=(function t(e,n){var r=Math.asin(1/(e=Math.max(1,e)))*
(n/=yt);function i(o){return 1-e*ne(o=+o)*Math.sin((o+r)/n)}return i.amplitude=function(o){return t(o,n*yt)},i.period=function(o){
return t(e,o)},i})(Oe,$e),lc=(function t(e,n){var r=Math.asin(1/(e=Math.max(1,e)))*(n/=yt);function i(o){return((o=o*2-1)<
0?e*ne(-o)*Math.sin((r-o)/n):2-e*ne(o)*Math.sin((r+o)/n))/2}return i.amplitude=function(o){return t(o,n*yt)},i.period=function(o){
return t(e,o)},i})(Oe,$e);var ao=vt("start","end","cancel","interrupt"),so=[],Nr=0,br=1,Re=2,re=3,Mr=4,De=5,ie=6;function oe(t,e,n,r,i,o){var u=t.
__transition;if(!u)t.__transition={};else if(n in u)return;co(t,n,{name:e,index:r,group:i,on:ao,tween:so,time:o.time,delay:o.
delay,duration:o.duration,ease:o.ease,timer:null,state:Nr})}function qe(t,e){var n=B(t,e);if(n.state>Nr)throw new Error(
"too late; already scheduled");return n}function G(t,e){var n=B(t,e);if(n.state>re)throw new Error("too late; already ru\
nning");return n}function B(t,e){var n=t.__transition;if(!n||!(n=n[e]))throw new Error("transition not found");return n}
function co(t,e,n){var r=t.__transition,i;r[e]=n,n.timer=Se(o,0,n.time);function o(c){n.state=br,n.timer.restart(u,n.delay,
n.time),n.delay<=c&&u(c-n.delay)}function u(c){var l,p,m,d;if(n.state!==br)return s();for(l in r)if(d=r[l],d.name===n.name){
if(d.state===re)return Te(u);d.state===Mr?(d.state=ie,d.timer.stop(),d.on.call("interrupt",t,t.__data__,d.index,d.group),
delete r[l]):+l<e&&(d.state=ie,d.timer.stop(),d.on.call("cancel",t,t.__data__,d.index,d.group),delete r[l])}if(Te(function(){
n.state===re&&(n.state=Mr,n.timer.restart(a,n.delay,n.time),a(c))}),n.state=Re,n.on.call("start",t,t.__data__,n.index,n.
group),n.state===Re){for(n.state=re,i=new Array(m=n.tween.length),l=0,p=-1;l<m;++l)(d=n.tween[l].value.call(t,t.__data__,
n.index,n.group))&&(i[++p]=d);i.length=p+1}}function a(c){for(var l=c<n.duration?n.ease.call(null,c/n.duration):(n.timer.
restart(s),n.state=De,1),p=-1,m=i.length;++p<m;)i[p].call(t,l);n.state===De&&(n.on.call("end",t,t.__data__,n.index,n.group),
s())}function s(){n.state=ie,n.timer.stop(),delete r[e];for(var c in r)return;delete t.__transition}}function zt(t,e){var n=t.
__transition,r,i,o=!0,u;if(n){e=e==null?null:e+"";for(u in n){if((r=n[u]).name!==e){o=!1;continue}i=r.state>Re&&r.state<
De,r.state=ie,r.timer.stop(),r.on.call(i?"interrupt":"cancel",t,t.__data__,r.index,r.group),delete n[u]}o&&delete t.__transition}}
function fo(t){return this.each(function(){zt(this,t)})}function lo(t,e){var n,r;return function(){var i=G(this,t),o=i.tween;
if(o!==n){r=n=o;for(var u=0,a=r.length;u<a;++u)if(r[u].name===e){r=r.slice(),r.splice(u,1);break}}i.tween=r}}function ho(t,e,n){
var r,i;if(typeof n!="function")throw new Error;return function(){var o=G(this,t),u=o.tween;if(u!==r){i=(r=u).slice();for(var a={
name:e,value:n},s=0,c=i.length;s<c;++s)if(i[s].name===e){i[s]=a;break}s===c&&i.push(a)}o.tween=i}}function po(t,e){var n=this.
_id;if(t+="",arguments.length<2){for(var r=B(this.node(),n).tween,i=0,o=r.length,u;i<o;++i)if((u=r[i]).name===t)return u.
value;return null}return this.each((e==null?lo:ho)(n,t,e))}function Pe(t,e,n){var r=t._id;return t.each(function(){var i=G(
this,r);(i.value||(i.value={}))[e]=n.apply(this,arguments)}),function(i){return B(i,r).value[e]}}function Ar(t,e){var n;
return(typeof e=="number"?Z:e instanceof ct?Ie:(n=ct(e))?(e=n,Ie):sr)(t,e)}function mo(t){return function(){this.removeAttribute(
t)}}function go(t){return function(){this.removeAttributeNS(t.space,t.local)}}function yo(t,e,n){var r,i=n+"",o;return function(){
var u=this.getAttribute(t);return u===i?null:u===r?o:o=e(r=u,n)}}function xo(t,e,n){var r,i=n+"",o;return function(){var u=this.
getAttributeNS(t.space,t.local);return u===i?null:u===r?o:o=e(r=u,n)}}function vo(t,e,n){var r,i,o;return function(){var u,
a=n(this),s;return a==null?void this.removeAttribute(t):(u=this.getAttribute(t),s=a+"",u===s?null:u===r&&s===i?o:(i=s,o=
e(r=u,a)))}}function _o(t,e,n){var r,i,o;return function(){var u,a=n(this),s;return a==null?void this.removeAttributeNS(
t.space,t.local):(u=this.getAttributeNS(t.space,t.local),s=a+"",u===s?null:u===r&&s===i?o:(i=s,o=e(r=u,a)))}}function wo(t,e){
var n=tt(t),r=n==="transform"?hr:Ar;return this.attrTween(t,typeof e=="function"?(n.local?_o:vo)(n,r,Pe(this,"attr."+t,e)):
e==null?(n.local?go:mo)(n):(n.local?xo:yo)(n,r,e))}function bo(t,e){return function(n){this.setAttribute(t,e.call(this,n))}}
function Mo(t,e){return function(n){this.setAttributeNS(t.space,t.local,e.call(this,n))}}function No(t,e){var n,r;function i(){
var o=e.apply(this,arguments);return o!==r&&(n=(r=o)&&Mo(t,o)),n}return i._value=e,i}function Ao(t,e){var n,r;function i(){
var o=e.apply(this,arguments);return o!==r&&(n=(r=o)&&bo(t,o)),n}return i._value=e,i}function Eo(t,e){var n="attr."+t;if(arguments.
length<2)return(n=this.tween(n))&&n._value;if(e==null)return this.tween(n,null);if(typeof e!="function")throw new Error;
var r=tt(t);return this.tween(n,(r.local?No:Ao)(r,e))}function Io(t,e){return function(){qe(this,t).delay=+e.apply(this,
arguments)}}function ko(t,e){return e=+e,function(){qe(this,t).delay=e}}function So(t){var e=this._id;return arguments.length?
this.each((typeof t=="function"?Io:ko)(e,t)):B(this.node(),e).delay}function To(t,e){return function(){G(this,t).duration=
+e.apply(this,arguments)}}function zo(t,e){return e=+e,function(){G(this,t).duration=e}}function Co(t){var e=this._id;return arguments.
length?this.each((typeof t=="function"?To:zo)(e,t)):B(this.node(),e).duration}function Oo(t,e){if(typeof e!="function")throw new Error;
return function(){G(this,t).ease=e}}function $o(t){var e=this._id;return arguments.length?this.each(Oo(e,t)):B(this.node(),
e).ease}function Ro(t,e){return function(){var n=e.apply(this,arguments);if(typeof n!="function")throw new Error;G(this,
t).ease=n}}function Do(t){if(typeof t!="function")throw new Error;return this.each(Ro(this._id,t))}function qo(t){typeof t!=
"function"&&(t=wt(t));for(var e=this._groups,n=e.length,r=new Array(n),i=0;i<n;++i)for(var o=e[i],u=o.length,a=r[i]=[],s,
c=0;c<u;++c)(s=o[c])&&t.call(s,s.__data__,c,o)&&a.push(s);return new J(r,this._parents,this._name,this._id)}function Po(t){
if(t._id!==this._id)throw new Error;for(var e=this._groups,n=t._groups,r=e.length,i=n.length,o=Math.min(r,i),u=new Array(
r),a=0;a<o;++a)for(var s=e[a],c=n[a],l=s.length,p=u[a]=new Array(l),m,d=0;d<l;++d)(m=s[d]||c[d])&&(p[d]=m);for(;a<r;++a)
u[a]=e[a];return new J(u,this._parents,this._name,this._id)}function Bo(t){return(t+"").trim().split(/^|\s+/).every(function(e){
var n=e.indexOf(".");return n>=0&&(e=e.slice(0,n)),!e||e==="start"})}function Xo(t,e,n){var r,i,o=Bo(e)?qe:G;return function(){
var u=o(this,t),a=u.on;a!==r&&(i=(r=a).copy()).on(e,n),u.on=i}}function Ho(t,e){var n=this._id;return arguments.length<2?
B(this.node(),n).on.on(t):this.each(Xo(n,t,e))}function Fo(t){return function(){var e=this.parentNode;for(var n in this.
__transition)if(+n!==t)return;e&&e.removeChild(this)}}function Lo(){return this.on("end.remove",Fo(this._id))}function Vo(t){
var e=this._name,n=this._id;typeof t!="function"&&(t=rt(t));for(var r=this._groups,i=r.length,o=new Array(i),u=0;u<i;++u)
for(var a=r[u],s=a.length,c=o[u]=new Array(s),l,p,m=0;m<s;++m)(l=a[m])&&(p=t.call(l,l.__data__,m,a))&&("__data__"in l&&(p.
__data__=l.__data__),c[m]=p,oe(c[m],e,n,m,c,B(l,n)));return new J(o,this._parents,e,n)}function Yo(t){var e=this._name,n=this.
_id;typeof t!="function"&&(t=_t(t));for(var r=this._groups,i=r.length,o=[],u=[],a=0;a<i;++a)for(var s=r[a],c=s.length,l,
p=0;p<c;++p)if(l=s[p]){for(var m=t.call(l,l.__data__,p,s),d,b=B(l,n),N=0,S=m.length;N<S;++N)(d=m[N])&&oe(d,e,n,N,m,b);o.
push(m),u.push(l)}return new J(o,u,e,n)}var Go=it.prototype.constructor;function Uo(){return new Go(this._groups,this._parents)}
function Ko(t,e){var n,r,i;return function(){var o=et(this,t),u=(this.style.removeProperty(t),et(this,t));return o===u?null:
o===n&&u===r?i:i=e(n=o,r=u)}}function Er(t){return function(){this.style.removeProperty(t)}}function Qo(t,e,n){var r,i=n+
"",o;return function(){var u=et(this,t);return u===i?null:u===r?o:o=e(r=u,n)}}function Zo(t,e,n){var r,i,o;return function(){
var u=et(this,t),a=n(this),s=a+"";return a==null&&(s=a=(this.style.removeProperty(t),et(this,t))),u===s?null:u===r&&s===
i?o:(i=s,o=e(r=u,a))}}function Wo(t,e){var n,r,i,o="style."+e,u="end."+o,a;return function(){var s=G(this,t),c=s.on,l=s.
value[o]==null?a||(a=Er(e)):void 0;(c!==n||i!==l)&&(r=(n=c).copy()).on(u,i=l),s.on=r}}function Jo(t,e,n){var r=(t+="")==
"transform"?lr:Ar;return e==null?this.styleTween(t,Ko(t,r)).on("end.style."+t,Er(t)):typeof e=="function"?this.styleTween(
t,Zo(t,r,Pe(this,"style."+t,e))).each(Wo(this._id,t)):this.styleTween(t,Qo(t,r,e),n).on("end.style."+t,null)}function jo(t,e,n){
return function(r){this.style.setProperty(t,e.call(this,r),n)}}function tu(t,e,n){var r,i;function o(){var u=e.apply(this,
arguments);return u!==i&&(r=(i=u)&&jo(t,u,n)),r}return o._value=e,o}function eu(t,e,n){var r="style."+(t+="");if(arguments.
length<2)return(r=this.tween(r))&&r._value;if(e==null)return this.tween(r,null);if(typeof e!="function")throw new Error;
return this.tween(r,tu(t,e,n??""))}function nu(t){return function(){this.textContent=t}}function ru(t){return function(){
var e=t(this);this.textContent=e??""}}function iu(t){return this.tween("text",typeof t=="function"?ru(Pe(this,"text",t)):
nu(t==null?"":t+""))}function ou(t){return function(e){this.textContent=t.call(this,e)}}function uu(t){var e,n;function r(){
var i=t.apply(this,arguments);return i!==n&&(e=(n=i)&&ou(i)),e}return r._value=t,r}function au(t){var e="text";if(arguments.
length<1)return(e=this.tween(e))&&e._value;if(t==null)return this.tween(e,null);if(typeof t!="function")throw new Error;
return this.tween(e,uu(t))}function su(){for(var t=this._name,e=this._id,n=Ir(),r=this._groups,i=r.length,o=0;o<i;++o)for(var u=r[o],
a=u.length,s,c=0;c<a;++c)if(s=u[c]){var l=B(s,e);oe(s,t,n,c,u,{time:l.time+l.delay+l.duration,delay:0,duration:l.duration,
ease:l.ease})}return new J(r,this._parents,t,n)}function cu(){var t,e,n=this,r=n._id,i=n.size();return new Promise(function(o,u){
var a={value:u},s={value:function(){--i===0&&o()}};n.each(function(){var c=G(this,r),l=c.on;l!==t&&(e=(t=l).copy(),e._.cancel.
push(a),e._.interrupt.push(a),e._.end.push(s)),c.on=e}),i===0&&o()})}var fu=0;function J(t,e,n,r){this._groups=t,this._parents=
e,this._name=n,this._id=r}function lu(t){return it().transition(t)}function Ir(){return++fu}var W=it.prototype;J.prototype=
lu.prototype={constructor:J,select:Vo,selectAll:Yo,selectChild:W.selectChild,selectChildren:W.selectChildren,filter:qo,merge:Po,
selection:Uo,transition:su,call:W.call,nodes:W.nodes,node:W.node,size:W.size,empty:W.empty,each:W.each,on:Ho,attr:wo,attrTween:Eo,
style:Jo,styleTween:eu,text:iu,textTween:au,remove:Lo,tween:po,delay:So,duration:Co,ease:$o,easeVarying:Do,end:cu,[Symbol.
iterator]:W[Symbol.iterator]};var hu={time:null,delay:0,duration:250,ease:wr};function pu(t,e){for(var n;!(n=t.__transition)||
!(n=n[e]);)if(!(t=t.parentNode))throw new Error(`transition ${e} not found`);return n}function mu(t){var e,n;t instanceof
J?(e=t._id,t=t._name):(e=Ir(),(n=hu).time=ee(),t=t==null?null:t+"");for(var r=this._groups,i=r.length,o=0;o<i;++o)for(var u=r[o],
a=u.length,s,c=0;c<a;++c)(s=u[c])&&oe(s,t,e,c,u,n||pu(s,e));return new J(r,this._parents,t,e)}it.prototype.interrupt=fo;
it.prototype.transition=mu;var Ct=t=>()=>t;function Be(t,{sourceEvent:e,target:n,transform:r,dispatch:i}){Object.defineProperties(this,{type:{value:t,enumerable:!0,
configurable:!0},sourceEvent:{value:e,enumerable:!0,configurable:!0},target:{value:n,enumerable:!0,configurable:!0},transform:{
value:r,enumerable:!0,configurable:!0},_:{value:i}})}function X(t,e,n){this.k=t,this.x=e,this.y=n}X.prototype={constructor:X,scale:function(t){return t===1?this:new X(this.k*
t,this.x,this.y)},translate:function(t,e){return t===0&e===0?this:new X(this.k,this.x+this.k*t,this.y+this.k*e)},apply:function(t){
return[t[0]*this.k+this.x,t[1]*this.k+this.y]},applyX:function(t){return t*this.k+this.x},applyY:function(t){return t*this.
k+this.y},invert:function(t){return[(t[0]-this.x)/this.k,(t[1]-this.y)/this.k]},invertX:function(t){return(t-this.x)/this.
k},invertY:function(t){return(t-this.y)/this.k},rescaleX:function(t){return t.copy().domain(t.range().map(this.invertX,this).
map(t.invert,t))},rescaleY:function(t){return t.copy().domain(t.range().map(this.invertY,this).map(t.invert,t))},toString:function(){
return"translate("+this.x+","+this.y+") scale("+this.k+")"}};var lt=new X(1,0,0);Xe.prototype=X.prototype;function Xe(t){
for(;!t.__zoom;)if(!(t=t.parentNode))return lt;return t.__zoom}function ue(t){t.stopImmediatePropagation()}function xt(t){t.preventDefault(),t.stopImmediatePropagation()}function du(t){return(!t.ctrlKey||t.type==="wheel")&&!t.button}function gu(){var t=this;return t instanceof SVGElement?(t=
t.ownerSVGElement||t,t.hasAttribute("viewBox")?(t=t.viewBox.baseVal,[[t.x,t.y],[t.x+t.width,t.y+t.height]]):[[0,0],[t.width.
baseVal.value,t.height.baseVal.value]]):[[0,0],[t.clientWidth,t.clientHeight]]}function kr(){return this.__zoom||lt}function yu(t){
return-t.deltaY*(t.deltaMode===1?.05:t.deltaMode?1:.002)*(t.ctrlKey?10:1)}function xu(){return navigator.maxTouchPoints||
"ontouchstart"in this}function vu(t,e,n){var r=t.invertX(e[0][0])-n[0][0],i=t.invertX(e[1][0])-n[1][0],o=t.invertY(e[0][1])-
n[0][1],u=t.invertY(e[1][1])-n[1][1];return t.translate(i>r?(r+i)/2:Math.min(0,r)||Math.max(0,i),u>o?(o+u)/2:Math.min(0,
o)||Math.max(0,u))}function He(){var t=du,e=gu,n=vu,r=yu,i=xu,o=[0,1/0],u=[[-1/0,-1/0],[1/0,1/0]],a=250,s=pr,c=vt("start",
"zoom","end"),l,p,m,d=500,b=150,N=0,S=10;function x(f){f.property("__zoom",kr).on("wheel.zoom",Ot,{passive:!1}).on("mous\
edown.zoom",$t).on("dblclick.zoom",Rt).filter(i).on("touchstart.zoom",Sr).on("touchmove.zoom",Tr).on("touchend.zoom touc\
hcancel.zoom",zr).style("-webkit-tap-highlight-color","rgba(0,0,0,0)")}x.transform=function(f,g,h,y){var v=f.selection?f.
selection():f;v.property("__zoom",kr),f!==v?$(f,g,h,y):v.interrupt().each(function(){R(this,arguments).event(y).start().
zoom(null,typeof g=="function"?g.apply(this,arguments):g).end()})},x.scaleBy=function(f,g,h,y){x.scaleTo(f,function(){var v=this.
__zoom.k,_=typeof g=="function"?g.apply(this,arguments):g;return v*_},h,y)},x.scaleTo=function(f,g,h,y){x.transform(f,function(){
var v=e.apply(this,arguments),_=this.__zoom,w=h==null?H(v):typeof h=="function"?h.apply(this,arguments):h,M=_.invert(w),
E=typeof g=="function"?g.apply(this,arguments):g;return n(z(T(_,E),w,M),v,u)},h,y)},x.translateBy=function(f,g,h,y){x.transform(
f,function(){return n(this.__zoom.translate(typeof g=="function"?g.apply(this,arguments):g,typeof h=="function"?h.apply(
this,arguments):h),e.apply(this,arguments),u)},null,y)},x.translateTo=function(f,g,h,y,v){x.transform(f,function(){var _=e.
apply(this,arguments),w=this.__zoom,M=y==null?H(_):typeof y=="function"?y.apply(this,arguments):y;return n(lt.translate(
M[0],M[1]).scale(w.k).translate(typeof g=="function"?-g.apply(this,arguments):-g,typeof h=="function"?-h.apply(this,arguments):
-h),_,u)},y,v)};function T(f,g){return g=Math.max(o[0],Math.min(o[1],g)),g===f.k?f:new X(g,f.x,f.y)}function z(f,g,h){var y=g[0]-
h[0]*f.k,v=g[1]-h[1]*f.k;return y===f.x&&v===f.y?f:new X(f.k,y,v)}function H(f){return[(+f[0][0]+ +f[1][0])/2,(+f[0][1]+
+f[1][1])/2]}function $(f,g,h,y){f.on("start.zoom",function(){R(this,arguments).event(y).start()}).on("interrupt.zoom en\
d.zoom",function(){R(this,arguments).event(y).end()}).tween("zoom",function(){var v=this,_=arguments,w=R(v,_).event(y),M=e.
apply(v,_),E=h==null?H(M):typeof h=="function"?h.apply(v,_):h,F=Math.max(M[1][0]-M[0][0],M[1][1]-M[0][1]),k=v.__zoom,D=typeof g==
"function"?g.apply(v,_):g,U=s(k.invert(E).concat(F/k.k),D.invert(E).concat(F/D.k));return function(q){if(q===1)q=D;else{
var K=U(q),ae=F/K[2];q=new X(ae,E[0]-K[0]*ae,E[1]-K[1]*ae)}w.zoom(null,q)}})}function R(f,g,h){return!h&&f.__zooming||new j(
f,g)}function j(f,g){this.that=f,this.args=g,this.active=0,this.sourceEvent=null,this.extent=e.apply(f,g),this.taps=0}j.
prototype={event:function(f){return f&&(this.sourceEvent=f),this},start:function(){return++this.active===1&&(this.that.__zooming=
this,this.emit("start")),this},zoom:function(f,g){return this.mouse&&f!=="mouse"&&(this.mouse[1]=g.invert(this.mouse[0])),
this.touch0&&f!=="touch"&&(this.touch0[1]=g.invert(this.touch0[0])),this.touch1&&f!=="touch"&&(this.touch1[1]=g.invert(this.
touch1[0])),this.that.__zoom=g,this.emit("zoom"),this},end:function(){return--this.active===0&&(delete this.that.__zooming,
this.emit("end")),this},emit:function(f){var g=O(this.that).datum();c.call(f,this.that,new Be(f,{sourceEvent:this.sourceEvent,
target:x,type:f,transform:this.that.__zoom,dispatch:c}),g)}};function Ot(f,...g){if(!t.apply(this,arguments))return;var h=R(
this,g).event(f),y=this.__zoom,v=Math.max(o[0],Math.min(o[1],y.k*Math.pow(2,r.apply(this,arguments)))),_=L(f);if(h.wheel)
(h.mouse[0][0]!==_[0]||h.mouse[0][1]!==_[1])&&(h.mouse[1]=y.invert(h.mouse[0]=_)),clearTimeout(h.wheel);else{if(y.k===v)
return;h.mouse=[_,y.invert(_)],zt(this),h.start()}xt(f),h.wheel=setTimeout(w,b),h.zoom("mouse",n(z(T(y,v),h.mouse[0],h.mouse[1]),
h.extent,u));function w(){h.wheel=null,h.end()}}function $t(f,...g){if(m||!t.apply(this,arguments))return;var h=f.currentTarget,
y=R(this,g,!0).event(f),v=O(f.view).on("mousemove.zoom",E,!0).on("mouseup.zoom",F,!0),_=L(f,h),w=f.clientX,M=f.clientY;Cn(
f.view),ue(f),y.mouse=[_,this.__zoom.invert(_)],zt(this),y.start();function E(k){if(xt(k),!y.moved){var D=k.clientX-w,U=k.
clientY-M;y.moved=D*D+U*U>N}y.event(k).zoom("mouse",n(z(y.that.__zoom,y.mouse[0]=L(k,h),y.mouse[1]),y.extent,u))}function F(k){
v.on("mousemove.zoom mouseup.zoom",null),On(k.view,y.moved),xt(k),y.event(k).end()}}function Rt(f,...g){if(t.apply(this,
arguments)){var h=this.__zoom,y=L(f.changedTouches?f.changedTouches[0]:f,this),v=h.invert(y),_=h.k*(f.shiftKey?.5:2),w=n(
z(T(h,_),y,v),e.apply(this,g),u);xt(f),a>0?O(this).transition().duration(a).call($,w,y,f):O(this).call(x.transform,w,y,f)}}
function Sr(f,...g){if(t.apply(this,arguments)){var h=f.touches,y=h.length,v=R(this,g,f.changedTouches.length===y).event(
f),_,w,M,E;for(ue(f),w=0;w<y;++w)M=h[w],E=L(M,this),E=[E,this.__zoom.invert(E),M.identifier],v.touch0?!v.touch1&&v.touch0[2]!==
E[2]&&(v.touch1=E,v.taps=0):(v.touch0=E,_=!0,v.taps=1+!!l);l&&(l=clearTimeout(l)),_&&(v.taps<2&&(p=E[0],l=setTimeout(function(){
l=null},d)),zt(this),v.start())}}function Tr(f,...g){if(this.__zooming){var h=R(this,g).event(f),y=f.changedTouches,v=y.
length,_,w,M,E;for(xt(f),_=0;_<v;++_)w=y[_],M=L(w,this),h.touch0&&h.touch0[2]===w.identifier?h.touch0[0]=M:h.touch1&&h.touch1[2]===
w.identifier&&(h.touch1[0]=M);if(w=h.that.__zoom,h.touch1){var F=h.touch0[0],k=h.touch0[1],D=h.touch1[0],U=h.touch1[1],q=(q=
D[0]-F[0])*q+(q=D[1]-F[1])*q,K=(K=U[0]-k[0])*K+(K=U[1]-k[1])*K;w=T(w,Math.sqrt(q/K)),M=[(F[0]+D[0])/2,(F[1]+D[1])/2],E=[
(k[0]+U[0])/2,(k[1]+U[1])/2]}else if(h.touch0)M=h.touch0[0],E=h.touch0[1];else return;h.zoom("touch",n(z(w,M,E),h.extent,
u))}}function zr(f,...g){if(this.__zooming){var h=R(this,g).event(f),y=f.changedTouches,v=y.length,_,w;for(ue(f),m&&clearTimeout(
m),m=setTimeout(function(){m=null},d),_=0;_<v;++_)w=y[_],h.touch0&&h.touch0[2]===w.identifier?delete h.touch0:h.touch1&&
h.touch1[2]===w.identifier&&delete h.touch1;if(h.touch1&&!h.touch0&&(h.touch0=h.touch1,delete h.touch1),h.touch0)h.touch0[1]=
this.__zoom.invert(h.touch0[0]);else if(h.end(),h.taps===2&&(w=L(w,this),Math.hypot(p[0]-w[0],p[1]-w[1])<S)){var M=O(this).
on("dblclick.zoom");M&&M.apply(this,arguments)}}}return x.wheelDelta=function(f){return arguments.length?(r=typeof f=="f\
unction"?f:Ct(+f),x):r},x.filter=function(f){return arguments.length?(t=typeof f=="function"?f:Ct(!!f),x):t},x.touchable=
function(f){return arguments.length?(i=typeof f=="function"?f:Ct(!!f),x):i},x.extent=function(f){return arguments.length?
(e=typeof f=="function"?f:Ct([[+f[0][0],+f[0][1]],[+f[1][0],+f[1][1]]]),x):e},x.scaleExtent=function(f){return arguments.
length?(o[0]=+f[0],o[1]=+f[1],x):[o[0],o[1]]},x.translateExtent=function(f){return arguments.length?(u[0][0]=+f[0][0],u[1][0]=
+f[1][0],u[0][1]=+f[0][1],u[1][1]=+f[1][1],x):[[u[0][0],u[0][1]],[u[1][0],u[1][1]]]},x.constrain=function(f){return arguments.
length?(n=f,x):n},x.duration=function(f){return arguments.length?(a=+f,x):a},x.interpolate=function(f){return arguments.
length?(s=f,x):s},x.on=function(){var f=c.on.apply(c,arguments);return f===c?x:f},x.clickDistance=function(f){return arguments.
length?(N=(f=+f)*f,x):Math.sqrt(N)},x.tapDistance=function(f){return arguments.length?(S=+f,x):S},x}globalThis.gestures=(t,{may:e,moved:n})=>{let r=He().filter(e).touchable(()=>!0).on("zoom",o=>n(o.transform.k,o.transform.
x,o.transform.y,o.sourceEvent)),i=O(t).call(r).on("dblclick.zoom",null);return{stands(o,u,a,s,c){r.scaleExtent([s,c]),i.
property("__zoom",lt.translate(u,a).scale(o))}}};})();
