"""Words that lists of group photographs are written with, in nine languages. Data only.

Each language: "and" and "with", words for the two partners, for everybody, for guests, for several
people who are not named (stems: "parent" finds "parents"), for "from" and "but", and what stands
above a list. Common speech, no source.
"""

from __future__ import annotations

from typing import NamedTuple


class Words(NamedTuple):
    joins: str
    couple: str  # phrases, with a comma between
    everybody: str
    all_of: str  # everybody only when it stands alone or before `guests`
    guests: str
    many: str
    some: str  # what makes a part of everybody
    heads: str


LANGUAGES: dict[str, Words] = {
    "en": Words(
        "and with plus",
        "us, both of us, the two of us, two of us, us two, we two, we, just us, only us, "
        "bride and groom, bride & groom, the couple, couple, newlyweds, the newlyweds",
        "everybody, everyone, all guests, all the guests, the whole wedding, all of us",
        "all",
        "guests together here there people invited",
        "parents grandparents family families siblings brothers sisters cousins friends aunts "
        "uncles kids children guests colleagues bridesmaids groomsmen ushers witnesses nieces "
        "nephews team flatmates housemates neighbours neighbors godparents godchildren "
        "grandchildren crew gang mates relatives clan girls boys ladies lads men women side "
        "in-laws lot household party choir band club class others more people",
        "from of except but without who side",
        "group photos pictures photographs shots list formals groups photo picture portraits",
    ),
    "de": Words(
        "und u. mit sowie plus",
        "wir, uns, wir beide, wir zwei, wir 2, nur wir, brautpaar, das brautpaar, braut und "
        "bräutigam, nur wir zwei, nur wir beide",
        "alle gäste, alle zusammen, ganze hochzeitsgesellschaft, die ganze hochzeitsgesellschaft, "
        "alle anwesenden, alle miteinander, jeder",
        "alle",
        "gäste zusammen miteinander leute anwesenden da",
        "eltern großeltern grosseltern familie familien geschwister brüder schwestern cousins "
        "cousinen freunde freundinnen tanten onkel kinder gäste kollegen kolleginnen "
        "brautjungfern trauzeugen nichten neffen nachbarn paten patenkinder enkel verwandte "
        "mädels jungs seite schwiegereltern verein chor mannschaft leute personen weitere clique",
        "von vom aus außer ohne",
        "gruppenfotos gruppenbilder fotos bilder liste fotoliste gruppen familienfotos",
    ),
    "fr": Words(
        "et avec plus",
        "nous, nous deux, les mariés, mariés, juste nous, les deux mariés, le couple",
        "tout le monde, tous les invités, tous ensemble, toute la noce, l'ensemble des invités",
        "tous toutes",
        "invités ensemble",
        "parents grands-parents famille familles frères sœurs soeurs cousins cousines amis amies "
        "tantes oncles enfants invités collègues demoiselles témoins nièces neveux voisins "
        "filleuls beaux-parents côté équipe copains copines filles garçons personnes autres",
        "de du des sauf sans",
        "photos groupe groupes liste photo",
    ),
    "es": Words(
        "y e con más",
        "nosotros, nosotras, nosotros dos, nosotras dos, los novios, las novias, novios, "
        "los dos, sólo nosotros, solo nosotros, la pareja",
        "todo el mundo, todos los invitados, todos juntos, todos los presentes",
        "todos todas",
        "invitados juntos presentes",
        "padres abuelos familia familias hermanos hermanas primos primas amigos amigas tíos tías "
        "niños niñas hijos invitados compañeros damas testigos padrinos sobrinos vecinos ahijados "
        "suegros lado equipo chicas chicos personas cuñados otros más",
        "de del menos sin salvo",
        "fotos grupo grupos lista foto",
    ),
    "pl": Words(
        "i oraz plus",
        "my, nas, nas dwoje, my dwoje, para młoda, młodzi, młoda para, państwo młodzi, tylko my, "
        "we dwoje",
        "wszyscy goście, wszyscy razem, wszyscy obecni",
        "wszyscy",
        "goście razem obecni",
        "rodzice rodzicami rodziną dziadkowie dziadkami rodzina rodziny rodzeństwo rodzeństwem "
        "bracia siostry kuzyni kuzynki kuzynostwo przyjaciele przyjaciółmi znajomi znajomymi "
        "ciocie wujkowie dzieci goście koledzy koleżanki druhny drużbowie świadkowie świadkami "
        "sąsiedzi chrzestni teściowie strona osób osoby drużyna dziewczyny chłopaki kuzynami",
        "od ze oprócz bez",
        "zdjęcia grupowe lista grupy zdjęć fotografie",
    ),
    "it": Words(
        "e ed con più",
        "noi, noi due, gli sposi, sposi, solo noi, le spose, la coppia",
        "tutti gli invitati, tutti insieme, tutti quanti, tutti gli ospiti",
        "tutti tutte",
        "invitati insieme ospiti quanti",
        "genitori nonni famiglia famiglie fratelli sorelle cugini cugine amici amiche zii zie "
        "bambini figli invitati colleghi damigelle testimoni nipoti vicini padrini suoceri lato "
        "squadra ragazze ragazzi persone parenti altri",
        "di del della dei da dal senza tranne",
        "foto gruppo gruppi lista",
    ),
    "nl": Words(
        "en met plus",
        "wij, ons, wij samen, wij twee, wij tweeën, bruidspaar, het bruidspaar, alleen wij, "
        "bruid en bruidegom, wij tweetjes",
        "iedereen, alle gasten, allemaal, iedereen samen",
        "alle allen",
        "gasten samen aanwezigen",
        "ouders grootouders familie gezin gezinnen broers zussen neven nichten vrienden "
        "vriendinnen tantes ooms kinderen gasten collega's collega’s bruidsmeisjes getuigen buren "
        "kleinkinderen schoonouders kant team meiden jongens personen anderen",
        "van uit behalve zonder",
        "groepsfoto's groepsfoto’s foto's foto’s lijst groepen groepsfotos",
    ),
    "pt": Words(
        "e com mais",
        "nós, nós dois, nós duas, os noivos, noivos, as noivas, só nós, o casal",
        "toda a gente, todo mundo, todo o mundo, todos os convidados, todos juntos",
        "todos todas",
        "convidados juntos",
        "pais avós família famílias irmãos irmãs primos primas amigos amigas tios tias crianças "
        "filhos convidados colegas damas madrinhas padrinhos testemunhas sobrinhos vizinhos "
        "afilhados sogros lado equipa equipe meninas rapazes pessoas cunhados outros",
        "de do da dos das menos sem",
        "fotos grupo grupos lista fotografias",
    ),
    "sv": Words(
        "och med samt plus",
        "vi, oss, vi två, brudparet, bara vi, brudpar, bara vi två",
        "alla gäster, alla tillsammans, allihop, allihopa",
        "alla",
        "gäster tillsammans här",
        "föräldrar farföräldrar morföräldrar familj familjen familjer syskon bröder systrar "
        "kusiner vänner mostrar fastrar morbröder farbröder barn gäster kollegor tärnor "
        "marskalkar vittnen syskonbarn grannar faddrar svärföräldrar sida laget tjejer tjejerna "
        "killar killarna personer barnbarn andra",
        "från av utom utan",
        "gruppbilder bilder foton lista grupper gruppfoton",
    ),
}

GREETINGS = (
    "hi hello hey dear hallo liebe lieber hoi dag beste bonjour salut coucou chère cher hola "
    "querida querido buenas cześć witaj dzień ciao buongiorno cara caro olá oi hej hejsan "
    "kära"
)
GOODBYES = (
    "thanks thank cheers love danke lg merci bises bisous gracias "
    "besos saludos dziękujemy dzięki pozdrawiamy grazie baci bedankt groetjes groeten liefs "
    "obrigado obrigada beijos abraços tack kram kramar hälsningar xx xxx"
)
BEFORE_GOODBYES = "best kind warm liebe viele lieben"
AFTER_GOODBYES = "wishes regards grüsse grüssen"  # casefolded
ABOUT = (
    "about around approx approx. ca ca. circa etwa rund env env. environ unos ok. około "
    "ungefär ongeveer cirka"
)
PEOPLE = (
    "people persons pax pers pers. leute personen personnes personas osób osoby persone pessoas "
    "personer st guests gäste invités invitados gości ospiti gasten convidados gäster more others "
    "weitere autres más altri anderen outros fler"
)
COLUMNS = (
    "group groups title people names who number count gruppe personen namen anzahl groupe "
    "noms nombre grupo personas nombres número grupa osoby gruppo persone nomi numero groep "
    "aantal pessoas nomes grupp personer antal no nr # how many wer qui quién"
)
NUMBERED_THINGS = "table tisch mesa stół tavolo tafel bord class room no nr"
