" Made from the tables of the language by python -m backbud_grammar.editors.generate
if exists('b:current_syntax')
  finish
endif
scriptencoding utf-8

syn match backbudRemark ;\v^[ \t]*#.*$; contains=@Spell
syn match backbudDate ;\v^[0-9][^ \t]*; nextgroup=backbudDay
syn match backbudDay ;\v.*$; contained contains=backbudWeather,backbudMeasure
syn match backbudWeather ;\v%(^|[ \t"])@<=%(humidity|frost|hail|high|rain|snow|wind|low|sun|at)%([ \t,"]|$)@=; contained
syn match backbudSubjects ;\v^[^ \t#0-9].*$; contains=backbudChoice
syn match backbudChoice ;\v\c%(^|[ \t,])@<=%(all|except|in|of)%([ \t,]|$)@=; contained

syn cluster backbudDetails contains=backbudDetail,backbudMeasure,backbudSpan,backbudText,backbudRemark
syn match backbudDetail ;\v%(^|[ \t"])@<=%(leaving the petioles|old soil washed out|water conductivity|wrapped in plastic|off the underside|old ties still in|water temperature|half bare-rooted|leaving petioles|old ties left in|pasted both ends|soil temperature|cold stratified|field soil kept|rooting hormone|roots shortened|sphagnum on top|with field soil|drainage layer|in a split pot|invoice number|off the bottom|rooting powder|roots cut back|trunk diameter|water hardness|off all round|off the sides|old ties left|permit number|ball wrapped|conductivity|in condition|no root work|old ties cut|old ties out|old wire off|old wire out|roots combed|all of them|anchored to|bare-rooted|bottom heat|moss on top|new needles|off the top|old ties in|rooting gel|with accent|with permit|with scroll|altogether|bare roots|combed out|deposit of|everything|in plastic|internodes|stays here|stratified|teased out|washed out|watered in|all of it|as a gift|back into|condition|internode|off below|off sides|on a tile|one every|own shoot|root ball|wanted by|again in|all over|diameter|for bill|hardness|imported|in a pot|in total|loosened|not done|observed|on stand|out into|re-entry|same mix|same pot|sphagnum|together|water pH|against|back to|candles|deposit|diluted|hormone|invoice|leaving|lowered|needles|off top|on bill|on loan|one per|soil pH|the lot|tied in|watered|accent|bagged|candle|combed|except|height|higher|in all|in pot|nebari|needle|number|out of|out to|pasted|permit|potted|raised|scroll|sealed|set at|shoots|soaked|spread|tilted|turned|wanted|washed|wedges|weight|again|award|gauge|girth|lower|medal|pairs|prize|shoot|stand|stays|stubs|taped|times|trunk|until|wedge|width|BBCH|area|bill|cans|dose|each|from|gift|into|mesh|more|moss|onto|rate|risk|stub|tied|ties|time|tips|weak|wind|with|all|can|for|mix|off|tip|was|EC|as|at|by|in|of|on|pH|to)%([ \t,"]|$)@=; contained
syn match backbudMeasure ;\v%(^|[ \t"])@<=%([0-9]+[ \t]*h[ \t]*[0-9]+%([ \t]*min)?|[-−]?[0-9]+%([.,][0-9]+)*%(%([ \t]*[x×][ \t]*|[-–/:]|[ \t]+to[ \t]+)[-−]?[0-9]+%([.,][0-9]+)*)*%(%([ \t]*%(degrees|minutes|percent|seconds|UK gal|US gal|degree|inches|liters|litres|minute|months|second|hours|liter|litre|mS/cm|month|uS/cm|weeks|years|µS/cm|μS/cm|days|feet|foot|hour|inch|week|year|cm2|cm²|day|m/s|min|ppm|°dH|cL|cl|cm|dH|dL|dl|ha|kg|lb|m2|m3|mL|mg|ml|mm|m²|m³|oz|°C|°F|\%|C|F|L|d|g|h|l|m|s|°)|[ \t]+[A-Z]{3})%([ \t]*/[ \t]*%(degrees|minutes|percent|seconds|UK gal|US gal|degree|inches|liters|litres|minute|months|second|hours|liter|litre|mS/cm|month|uS/cm|weeks|years|µS/cm|μS/cm|days|feet|foot|hour|inch|week|year|cm2|cm²|day|m/s|min|ppm|°dH|cL|cl|cm|dH|dL|dl|ha|kg|lb|m2|m3|mL|mg|ml|mm|m²|m³|oz|°C|°F|\%|C|F|L|d|g|h|l|m|s|°))?)?%([ \t]+[x×][ \t]*[0-9]+)?)%([ \t,"]|$)@=; contained
syn match backbudSpan ;\v%(^|[ \t"])@<=%([0-9]{4}[-0-9WX~?%]*/%([0-9]{4}[-0-9WX~?%]*|\.\.)|\.\./[0-9]{4}[-0-9WX~?%]*|[0-9]{4}-[0-9]{2}-[0-9]{2}[~?%]?|[0-9]{4}-%([0-9]{2}|XX|W[0-9]{2})%(-%(XX|[0-9]))?[~?%]?|[0-9]{4}[~?%]|[0-9]{2}%(XX|[0-9]X)[~?%]?)%([ \t,"]|$)@=; contained
syn match backbudText ;\v"[^"]*"; contained contains=@Spell
syn region backbudActLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contains=backbudAct,backbudAside,@backbudDetails
syn region backbudProseLine start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(note|noted|private)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contains=backbudAct,backbudRemark,@Spell
syn match backbudAct ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(agree|agreed|air layer|air layered|air-layer|air-layered|ask after|ask-after|asked after|asked-after|bend|bent|bill|billed|bloom|bloomed|bought|buy|carve|carved|check|checked|clean|cleaned|clip|clipped|collect|collected|correct|corrected|count|counted|credit|credited|cut back|cut-back|deadhead|deadheaded|decandle|decandled|defoliate|defoliated|die|died|dig|disbud|disbudded|drain|drained|dug|exhibit|exhibited|fed|feed|fertilise|fertilised|fertilize|fertilized|flowered|flush|flushed|fruit|fruited|germinate|germinated|graft|grafted|guy|guyed|hand back|hand-back|handed back|handed-back|insure|insured|invoiced|layer|layered|leaf prune|leaf pruned|leaf-prune|leaf-pruned|lend|lent|lift|lifted|lime sulphur|lime sulphured|lime-sulphur|lime-sulphured|lose|lost|measure|measured|mist|misted|move|moved|needle pluck|needle plucked|needle-pluck|needle-plucked|notch|notched|note|noted|open|opened|paid|part off|part-off|parted off|parted-off|pay|photo|photograph|photographed|pinch|pinched|plan|planned|plant out|plant-out|planted out|planted-out|pluck|plucked|pot on|pot up|pot-on|pot-up|potted on|potted up|potted-on|potted-up|price|priced|prick|prick-out|pricked|pricked-out|private|protect|protected|prune|pruned|put off|put-off|quarantine|quarantined|quote|quoted|ready|receive|received|refront|refronted|release|released|repot|repotted|return|returned|root prune|root pruned|root-prune|root-pruned|rooted|rotate|rotated|rub|rubbed|seal|sealed|select|selected|sell|separate|separated|sever|severed|shade|shaded|show|shown|skip|skipped|slip|slipped|soak|soaked|sold|sow|sown|split off|split-off|spray|sprayed|stage|staged|strike|struck|style|styled|thin|thinned|tie|tied|top dress|top dressed|top-dress|top-dressed|treat|treat-deadwood|treated|treated-deadwood|trim|trimmed|turn|turned|unguy|unguyed|unprotect|unprotected|unshade|unshaded|untie|untied|unwire|unwired|unwrap|unwrapped|use|used|value|valued|ventilate|ventilated|vigor|vigour|water|watered|weed|weeded|wire|wired|work|worked|wrap|wrapped)%([ \t]|$)@=; contained
syn region backbudAside start=;\v[ \t]@<=%(--|—)%([ \t]|$)@=; end=;\%$; contained contains=backbudAct,backbudRemark,@Spell

syn match backbudKind ;\v^%(tree|place|pot|person|mix|material|group|words); contained nextgroup=backbudHandle
syn match backbudHandle ;\v[ \t]+[^ \t]+; contained

syn region backbudTree start=;\v^tree[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudTreeLine,backbudTreeProse,backbudRemark
syn region backbudTreeLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudTreeLabel,@backbudDetails
syn region backbudTreeProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(passport|species|origin|front|notes|style|kind|name|note)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudTreeLabel,backbudRemark,@Spell
syn match backbudTreeLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(root ball|wanted by|formerly|strength|height|nebari|public|spread|wanted|wedges|count|girth|owner|place|since|trunk|value|width|mix|pot|passport|species|origin|front|notes|style|kind|name|note)%([ \t]|$)@=; contained
syn sync match backbudSyncTree grouphere backbudTree ;\v^tree[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudTreeLabel Type
hi def link backbudTreeProse String

syn region backbudPlace start=;\v^place[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudPlaceLine,backbudPlaceProse,backbudRemark
syn region backbudPlaceLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudPlaceLabel,@backbudDetails
syn region backbudPlaceProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(hardiness zone|weather|notes|name|note|town)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudPlaceLabel,backbudRemark,@Spell
syn match backbudPlaceLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(elevation|longitude|altitude|formerly|latitude|coldest|within|cover|since|high|rain|low|hardiness zone|weather|notes|name|note|town)%([ \t]|$)@=; contained
syn sync match backbudSyncPlace grouphere backbudPlace ;\v^place[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudPlaceLabel Type
hi def link backbudPlaceProse String

syn region backbudPot start=;\v^pot[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudPotLine,backbudPotProse,backbudRemark
syn region backbudPotLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudPotLabel,@backbudDetails
syn region backbudPotProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(colour|color|glaze|maker|notes|name|note)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudPotLabel,backbudRemark,@Spell
syn match backbudPotLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(formerly|outside|inside|holes|owner|shape|since|taper|value|feet|colour|color|glaze|maker|notes|name|note)%([ \t]|$)@=; contained
syn sync match backbudSyncPot grouphere backbudPot ;\v^pot[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudPotLabel Type
hi def link backbudPotProse String

syn region backbudPerson start=;\v^person[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudPersonLine,backbudPersonProse,backbudRemark
syn region backbudPersonLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudPersonLabel,@backbudDetails
syn region backbudPersonProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(experience|address|contact|notes|name|note|town)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudPersonLabel,backbudRemark,@Spell
syn match backbudPersonLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(forgotten|formerly|consent|pages|place|since|rate|experience|address|contact|notes|name|note|town)%([ \t]|$)@=; contained
syn sync match backbudSyncPerson grouphere backbudPerson ;\v^person[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudPersonLabel Type
hi def link backbudPersonProse String

syn region backbudMix start=;\v^mix[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudMixLine,backbudMixProse,backbudRemark
syn region backbudMixLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudMixLabel,@backbudDetails
syn region backbudMixProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(notes|name|note)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudMixLabel,backbudRemark,@Spell
syn match backbudMixLabel ;\v%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=[^ \t#].{-}\ze[ \t]+[0-9]; contained
syn match backbudMixLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(formerly|settles|since|pH|notes|name|note)%([ \t]|$)@=; contained
syn sync match backbudSyncMix grouphere backbudMix ;\v^mix[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudMixLabel Type
hi def link backbudMixProse String

syn region backbudMaterial start=;\v^material[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudMaterialLine,backbudMaterialProse,backbudRemark
syn region backbudMaterialLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudMaterialLabel,@backbudDetails
syn region backbudMaterialProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(notes|name|note)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudMaterialLabel,backbudRemark,@Spell
syn match backbudMaterialLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(formerly|density|sold in|label|lasts|metal|price|since|notes|name|note)%([ \t]|$)@=; contained
syn sync match backbudSyncMaterial grouphere backbudMaterial ;\v^material[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudMaterialLabel Type
hi def link backbudMaterialProse String

syn region backbudGroup start=;\v^group[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudGroupLine,backbudGroupProse,backbudRemark
syn region backbudGroupLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudGroupLabel,@backbudDetails
syn region backbudGroupProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(notes|name|note)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudGroupLabel,backbudRemark,@Spell
syn match backbudGroupLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(formerly|since|trees|notes|name|note)%([ \t]|$)@=; contained
syn sync match backbudSyncGroup grouphere backbudGroup ;\v^group[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudGroupLabel Type
hi def link backbudGroupProse String

syn region backbudWords start=;\v^words[ \t]+[^ \t,]+[ \t]*$; end=;\v^\ze[^ \t#]; keepend contains=backbudKind,backbudWordsLine,backbudWordsProse,backbudRemark
syn region backbudWordsLine start=;\v^\z([ \t]+)\ze[^ \t#]; end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudWordsLabel,@backbudDetails
syn region backbudWordsProse start=;\v^\c\z([ \t]+)\ze%([0-2][0-9]:[0-5][0-9][ \t]+)?%(notes|note)%([ \t]|$); end=;\v^%(\z1[ \t]|[ \t]*#)@!; keepend contained contains=backbudWordsLabel,backbudRemark,@Spell
syn match backbudWordsLabel ;\v\c%(^[ \t]+%([0-2][0-9]:[0-5][0-9][ \t]+)?)@<=%(since|past|notes|note)%([ \t]|$)@=; contained
syn sync match backbudSyncWords grouphere backbudWords ;\v^words[ \t]+[^ \t,]+[ \t]*$;
hi def link backbudWordsLabel Type
hi def link backbudWordsProse String

syn sync match backbudSyncPage grouphere NONE ;^[0-9];
hi def link backbudRemark Comment
hi def link backbudAside Comment
hi def link backbudDate Title
hi def link backbudSpan Constant
hi def link backbudKind Type
hi def link backbudHandle Identifier
hi def link backbudSubjects Identifier
hi def link backbudChoice Keyword
hi def link backbudAct Statement
hi def link backbudProseLine String
hi def link backbudText String
hi def link backbudMeasure Number
hi def link backbudDetail Special
hi def link backbudWeather Special

let b:current_syntax = 'backbud'
