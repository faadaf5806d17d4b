"""Ways in which English says that a thing is used or not: patterns of the words around its name.

Words stand in small letters, without apostrophes and marks. Patterns for what stands before a name
end where the name begins. General English, written from common knowledge; no source.
"""

import re

from guidegen.bench.talks.speech import DOING
from guidegen.bench.talks.telling import MAYBE_WORK, words_in

CONTRAST = words_in("but so then because cause whereas although though while until")
"""Words behind which the words before a thing say nothing of it."""
SUBJECTS = words_in(
    "i we you im ive ill id lets were weve well wed youre youve youll youd he she they "
    "hes shes theyre"
)
"""Words that begin to tell of somebody, where another way may end."""
CONDITIONS = words_in(
    "if when where before wish than as how what that like "
    "normally usually ideally traditionally typically do did should would could"
)
"""Words before a subject that say how what follows is meant."""
_GAP = r"(?: \w+){0,%d}$"
_DESCRIBED = _GAP % 3
"""An article and what describes a thing."""


def _any(*ways: str) -> str:
    return "(?:" + "|".join(ways) + ")"


VERBS = DOING - MAYBE_WORK - words_in("sewing cutting setting heat press spray needs")
"""Verbs that end a list of things, by which no tool is called as well."""
LIST_REFUSED = re.compile(
    r"\b(?:no|not|without|(?:dont|doesnt|didnt|wont|never|do not) (?:need|use|own|have|want)|"
    r"havent got|never use|avoid)(?P<between>(?: \w+){1,9})$"
)
INDISPENSABLE = re.compile(
    r"\b(?:couldnt|cant|cannot|never|wouldnt|dont|do not|nothing|not) (?:\w+ ){0,4}"
    r"(?:without|forget|skip|skimp on)"
    + _DESCRIBED
    + r"|\b(?:not|dont) (?:just|only)(?: \w+){0,3}$"
)
"""What before a thing says that it is needed all the more."""

REFUSED = re.compile(
    _any(
        # A refusal that is itself refused asks for the thing.
        r"(?<!not )(?<!dont )(?<!never )(?<!cant do )\b(?:instead of|rather than|as opposed to|"
        r"unlike|avoid|avoiding|ditch|ditched|skip|skipped|skipping|forget about|never mind)"
        + _DESCRIBED,
        r"\b(?:no need for|no need of|no need to \w+|nothing to do with|stay away from|"
        r"keep away from|steer clear of|gave up on|given up on|giving up on|sick of|"
        r"fed up with|tired of|cant stand|ran out of|run out of|no longer|not even)" + _DESCRIBED,
        r"\b(?:dont|doesnt|didnt|do not|does not|did not|wont|never|cant|couldnt|not) "
        r"(?:\w+ )?(?:need|needed|use|using|used|own|have|bother|touch|want|wear|trust|afford|buy|"
        r"like|recommend|reach|go|going)(?: to| with| for| about| near| any| a| an| the| your| my| "
        r"use| using| buy| get| wear| special| fancy| expensive| proper| big| real| actual| whole| "
        r"new){0,5}$",
        r"\b(?:havent|hasnt|hadnt) (?:got|used|needed|tried|owned|touched)" + _DESCRIBED,
        r"\b(?:nobody|no one|none of us|none of you) (?:needs?|uses?|wants?|has|owns)" + _DESCRIBED,
        r"\b(?:dont|do not|wouldnt|never|didnt) (?:even )?(?:think|dream|go near|go anywhere near|"
        r"come near)(?: about| of)?(?: using| of using)?" + _DESCRIBED,
        r"\b(?:nor|neither)(?: a| an| the| any| with| do i use| with a){0,2}$",
    )
)
"""What before a thing says that it is not used."""

DENIED = re.compile(
    r"(?:is|are|was|were) (?:not|never) (?:needed|required|necessary|used|allowed|what|for this)\b|"
    r"(?:isnt|arent|wasnt) (?:needed|required|necessary|used|allowed|what|for this)\b|"
    r"not (?:needed|required|necessary)\b|"
    r"(?:i|we|you) (?:do not|dont|didnt|did not|never|wont) (?:\w+ )?(?:use|own|trust|recommend)\b"
)
"""What right behind a thing says that it is not used."""

_PERSON = (
    "uncle aunt dad father mum mom mother grandfather grandmother grandad granddad grandpa grandma "
    "gran nan brother sister cousin friend mate neighbour neighbor wife husband partner boss "
    "teacher tutor colleague buddy roommate flatmate son daughter"
).replace(" ", "|")
DOUBTED = re.compile(
    _any(
        # Others' ways. "My brother lent me his drill" is none: lending is no way of working.
        r"\b(?:people|folks?|others|makers|purists|professionals|pros|beginners|tutorials?|videos?|"
        r"ladies|guys|lads|lot|some)"
        r"(?: \w+){0,2} (?:use|used|using|swear|say|said|recommend|recommended|prefer|suggest|ask|"
        r"asked|tell|told|go for|reach|did|do|think|love|like)" + _GAP % 7,
        r"\b(?:every|some|no)(?:one|body)s? (?:\w+ ){0,2}(?:uses|used|swears|sealed|glued|wrote|"
        r"says|say|said|recommends|prefers|suggests|asks|asked|told|tells|loves|likes)" + _GAP % 7,
        # Another's hand: he has sealed it with hot air, it was glued with hot glue.
        r"\b(?:hes|shes|theyve|he has|she has|they have) (?:already )?\w+(?:ed|t) (?:\w+ ){0,3}with"
        + _DESCRIBED,
        r"\b(?:was|were|had been|been) (?:done|made|\w+ed|stuck) (?:\w+ )?with" + _DESCRIBED,
        r"\b(?:has|have|had) brought" + _DESCRIBED,
        r"\b(?:hear|heard|hears|read) (?:\w+ )?about" + _DESCRIBED,
        # Asked.
        r"\b(?:do|did|should|could|would) (?:you|i|we) (?:really )?(?:use|need|want|have|wear)"
        + _GAP % 4,
        r"\b(?:is|are|keeps?|keep) saying" + _GAP % 6,
        r"\b(?:keep|keeps|kept) (?:telling|asking|saying)" + _GAP % 6,
        r"\b(?:tells?|told|asks?|asked|wants?|wanted|begs?|begged) (?:me|us|him|her|them) to"
        + _GAP % 5,
        r"\b(?:friend|mate|colleague|neighbour|neighbor|guy|girl|man|woman|lady|bloke|lad)"
        r"(?: of mine| i know| at work| down the road| from work)? (?:\w+ )?(?:does|did|uses|used|"
        r"makes|made|has|had|swears|glues|sticks|cuts)" + _GAP % 6,
        r"\b(?:recipe|tutorial|tutorials|pattern|book|instructions|label|internet|forum|video) "
        r"(?:\w+ )?(?:says?|said|calls? for|wants?|wanted|asks? for|tells? you)" + _GAP % 5,
        r"\b(?:in the old days|back in the day|back then|in those days|when i was)" + _GAP % 9,
        r"\b(?:first|last|old|previous|other|earlier) (?:one|version|attempt|try|pair|set|time)s? "
        r"(?:was|were|had|got|used)" + _GAP % 5,
        r"\b(?:might think|youd think|would think|may think)(?: of)?" + _GAP % 6,
        r"\b(?:could|can|might) also (?:\w+ )?(?:use|do|try|take|buy|get)" + _GAP % 5,
        r"\b(?:theres|there is|there are|there s) also" + _GAP % 3,
        r"\bas \w+ as" + _GAP % 2,
        r"\b(?:sold|lost|binned|returned|gave away)" + _DESCRIBED,
        r"\b(?:half|most|some|many|all|lots) of you (?:\w+ ){0,2}(?:said|say|wrote|asked|use|"
        r"used|want)" + _GAP % 4,
        r"\b(?:youd|you would|id|wed) (?:\w+ )?need" + _GAP % 5,
        # Put to another use or to none.
        r"\b(?:candidates|options|choices|contenders)" + _GAP % 9,
        rf"\b(?:my|his|her|our|your) (?:\w+ )?(?:{_PERSON})(?: (?:always|still|once|just|only))? "
        r"(?:uses|used|swears|swore|prefers|preferred|has|had|did|does|likes|loves|cuts|glues|"
        r"made|makes)(?! not\b)" + _GAP % 7,
        r"\bthey (?:all |always |often |mostly |used to )?(?:use|used|say|recommend|swear|prefer)"
        + _GAP % 5,
        r"\b(?:he|she) (?:says|said|keeps saying|told me|thinks|thought)" + _GAP % 6,
        r"\b(?:he|she|they) (?:would|used to|swears|swore|prefers|wanted|wants|always)" + _GAP % 5,
        # Given up.
        r"(?<!get )(?<!got )(?<!getting )(?<!im )(?<!are )\bused to" + _GAP % 8,
        r"\b(?:once (?:used|did|tried|made)|"
        r"started out with|started off with|originally|last time|years ago|back when|"
        r"first version|previous|previously)" + _GAP % 8,
        r"\b(?:i|we) (?:really |always )?(?:hate|hated|loathe|regret)(?! when\b)" + _GAP % 4,
        r"\b(?:i|we|ive|weve|he|she|they) (?:have |had |first |once |also |even |actually )?"
        r"(?:tried|attempted|considered|contemplated|regretted)(?! on\b)" + _GAP % 6,
        r"\b(?:was|we were|they were) (?:going to|gonna|thinking|tempted|planning|about to)"
        + _GAP % 6,
        r"\b(?:i|we|he|she|they) once" + _GAP % 8,
        r"\bwhen (?:i|we) (?:was|were|started|began|first)\b" + _GAP % 8,
        r"\b(?:they|shops?|stores?) (?:also )?(?:sell|sells|stock|stocks)" + _GAP % 4,
        r"\bnext time" + _GAP % 6,
        r"\bthought (?:about|of)" + _GAP % 4,
        r"\bwanted to (?:use|try|do|buy|get|make|paint|glue|have)" + _GAP % 5,
        # What would be.
        r"\b(?:id|youd|wed|hed|shed|theyd|would|could|might|should) have" + _GAP % 6,
        r"\b(?:wouldve|couldve|shouldve|mightve|wouldnt|shouldnt|couldnt)" + _GAP % 5,
        r"\b(?:wish|if) (?:i|we) (?:had|owned|could|see|catch|find)" + _GAP % 4,
        # Compared.
        r"\b(?!more|less|other)\w+ than" + _DESCRIBED,
        r"\b(?:bit|looks|look|feels|works|acts|behaves|sounds|much) like" + _GAP % 2,
        r"\b(?:normally|usually|ideally|traditionally|typically) (?:youd|you|they|people|one)"
        + _GAP % 5,
        r"\b(?:youd|you would|they) (?:normally|usually|ideally|traditionally|typically)"
        + _GAP % 5,
        r"\b(?:compared to|compared with|similar to|same as|as good as)" + _DESCRIBED,
        r"\b(?:prefer|preferred|prefers) (?:\w+ ){1,5}(?:to|over)" + _GAP % 2,
    )
)
"""What before a thing says that it is another's way, given up, what would be, or compared."""

DISMISSED = re.compile(
    r"(?:it |they )?(?:came off|comes off|cracked|cracks|peels|peeled|broke|breaks|lets go|let go|"
    r"failed|fails|"
    r"shrank|shrinks|left|unzipped|squash|squashes|tears|tore|did that|stuck it|yellows|bleeds|"
    r"goes yellow|goes all|went all|went yellow|pulled|snapped|slid|slides off|melts)\b|"
    r"(?:was|were) next\b|"
    r"(?:would |also |might )?works? (?:too|as well|also)\b|(?:does|do) (?:too|as well)\b|"
    r"(?:it|that|they|you|this) (?:would|wouldnt)\b|(?:itd|youd|theyd|thatd) (?!need|want)|"
    r"(?:\w+ ){0,2}(?:someone|somebody|chat|people) (?:asks|ask|asked|says|say|said|wrote|"
    r"writes)\b|"
    r"(?:at home|in its box|in the drawer|for (?:kids|the kids|later|another|something else))\b|"
    r"(?:are|is|s) for (?!this|the|that|it|these|now|all)\w+$|"
    r"(?:tried|considered|no thanks|so no|is \w+ \w+ \w+ so no)\b|"
    r"(?:would|wouldnt|might|wont|cant|cannot|doesnt|didnt|isnt|arent|wasnt)\b|"
    r"(?:is|are|was|were|gets|just) (?:too|not|no good|useless|overkill|rubbish|terrible|awful|"
    r"horrible|a mess|a waste|a nightmare|a disaster)\b|"
    r"(?:is |are |was |were )?(?:way |far |much )?too (?:messy|hot|hard|soft|thick|thin|weak|"
    r"stiff|slow|fast|big|small|expensive|brittle|heavy|runny|risky|dangerous|fiddly|blunt|rough|"
    r"coarse)\b|"
    r"(?:has |have |just )?(?:died|broke|is broken|packed up|ran out|is gone|was gone|got lost)\b|"
    r"(?:that |which )?(?:people|everyone|everybody|they|others|folks|most people|some people) "
    r"(?:all |always )?(?:use|uses|used|recommend|recommends|swear|swears|talk|talks)\b|"
    r"(?:that |which )?(?:i|we) (?:used last|used to|used before|tried)\b"
)
"""What right behind a thing speaks against it, unless it is used elsewhere in the talk."""

USED = re.compile(
    r"\b(?:(?:im|were|ill|i|we) (?:use|using|need|take|grab|get|like|reach for|go for|go with|went "
    r"with|cut|glue|stick|sand|paint|seal)|(?:ive|weve) got|take|grab|use|using|wear|wearing|"
    r"reach for|(?:cut|cutting|stick|glue|sand|paint|seal|mark|hold|press|smooth|wipe|sew) "
    r"(?:it |this |that |them |these )?(?:down |on |off )?with)\b" + _DESCRIBED
)
"""Verbs and words of use close before a thing, where nothing speaks against it."""
TURNED_DOWN = re.compile(
    r"(?:i |we )?(?:dont|do not|didnt|never|wont) (?:care|like|trust|want|use|need|bother)\b|"
    r"(?:i|we) (?:wont|wouldnt|dont|didnt)\b(?! \w+ (?:the|a|an|without))|"
    r"none of (?:that|those|them|it)|tried|no thanks|removed|not for me|not today|never again|"
    r"(?:i |we )?(?:hate|hated) (?:it|them|that)"
)
"""How a sentence begins that turns down what the one before it names."""
_PAST = "(?:used|made|did|had|tried|built|glued|cut|painted|sewed|sewn|went with|bought)"
EARLIER = re.compile(
    r"\b(?:in the old days|back in the day|back then|in those days|years ago)\b|"
    r"\b(?:last|first|previous|old|other|earlier) "
    rf"(?:one|ones|version|time|build|attempt|pair|set) (?:i|we) {_PAST}\b|"
    rf"\b(?:i|we) {_PAST} (?:the|my|our) (?:last|first|old|previous) (?:one|version|build|pair)\b|"
    rf"\b(?:i|we) {_PAST} (?:\w+ ){{1,6}}(?:last (?:time|year|week|month)|the first time|years ago|"
    r"(?:on|for|in) (?:the|my) (?:last|first|old|previous) (?:one|version|build|attempt|pair))\b"
)
"""What tells of a work that is not this one."""
ASKED = re.compile(
    r"\b(?:you might|youd|you would|some of you|half of you|most of you|people) "
    r"(?:will |would |may )?(?:think|say|tell)(?: \w+){0,6}$|"
    r"\b(?:ask|asks|asked|asking|wonder|wonders|wondered|wondering) (?:\w+ ){0,4}"
    r"(?:if|whether|why|about)(?: \w+){0,7}$"
)
"""What before a thing says that somebody only asked about it."""
QUESTION = re.compile(
    r"(?:and |so |now |okay )?(?:do|does|can|could|should|would|is|are|will|why|what|how|shall|"
    r"must|did)\b"
)
COULD = re.compile(
    r"\b(?:(?:you|one|we|i) (?:could|can|might)|(?:id|youd|wed|youll|you will) "
    r"(?:use|want|need)|if you (?:have|own|want|happen|like|prefer))"
    r"(?: \w+){0,5}$"
)
OWN_WAY = re.compile(
    r"\b(?:but|only|though) (?:i|we|it|its|im|ive|that|thats|they|theyre|for this)\b|"
    r"\bi (?:just |still |always |personally |really )?"
    r"(?:dont|wouldnt|wont|prefer|find|never|didnt|use|went with|go with|stick with|do it|"
    r"do mine)\b|"
    r"\bi \w+ (?:it |mine |them )?by hand\b"
)
