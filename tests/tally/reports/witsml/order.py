"""What may stand where in the documents, written down a second time from the published standard.

Energistics WITSML 2.1 (2022) with its common part 2.3, and WITSML 1.4.1.1 (2012). For each element,
by its name and that of its parent where a name is used twice, its children in order. "!" is one
that must be there, "*" one that may stand more than once. It is longer than what we write and owes
nothing to our own table.
"""

from __future__ import annotations

from lxml import etree

from tests.tally.reports.witsml.documents import name

_REFERENCE = "QualifiedType! Uid! Name Index"
_OBJECT = (
    "Aliases* Citation! Existence ObjectVersionReason BusinessActivityHistory* OSDUIntegration "
    "CustomData ExtensionNameValue*"
)
_POINTER = (
    "Uuid! ObjectVersion QualifiedType! Title! EnergisticsUri LocatorUrl* ExtensionNameValue*"
)
_INTERVAL = "Comment MdMin! MdMax! Uom! Datum"
_DEPTH = "MeasuredDepth! Datum"
_STAGE = (
    "AnnularFlowAfter ReciprocationSlackoff BotPlug BotPlugNumber DiaTailPipe DisplacementFluid "
    "ETimPresHeld ExtensionNameValue* FlowrateMudCirc Gel10Min Gel10Sec MdCircOut MdCoilTbg "
    "MdString MdTool MixMethod NumStage! ReciprocationOverpull PillBelowPlug PlugCatcher "
    "PresBackPressure PresBump PresCoilTbgEnd PresCoilTbgStart PresCsgEnd PresCsgStart "
    "PresDisplace PresHeld PresMudCirc PresTbgEnd PresTbgStart PvMud SqueezeObjective "
    "StageMdInterval TailPipePerf TailPipeUsed TempBHCT TempBHST TopPlug TypeOriginalMud "
    "TypeStage! VolCircPrior VolCsgIn VolCsgOut VolDisplaceFluid VolExcess VolExcessMethod "
    "VolMudLost VolReturns WtMud YpMud Step* OriginalFluidLocation* EndingFluidLocation*"
)
_ANY_CEMENTING = (
    "CementEngr ETimWaitingOnCement PlugInterval MdHole Contractor RpmPipe TqInitPipeRot TqPipeAv "
    "TqPipeMx OverPull SlackOff RpmPipeRecip LenPipeRecipStroke Reciprocating"
)
_LOCATION = "Fluid! MDFluidBase! MDFluidTop! Volume! LocationType!"
_ON_STRING = (
    "Equipment! EquipmentType Name EquipmentEventHistory* Status RunNo PreviousRunDays "
    "ObjectCondition SurfaceCondition Count Length MdInterval TvdInterval OutsideString "
    "TensileMax PresRating PresCollapse PresBurst HeatRating IsLinetoSurface IsCentralized "
    "HasScratchers PerforationSet* PermanentRemarks UsageComment ExtensionNameValue* "
    "OrderOfObject InsideComponent* OutsideComponent* ConnectionNext* Assembly"
)
NEWER = {
    "Citation": "Title! Originator! Creation! Format! Editor LastUpdate Description "
    "EditorHistory* DescriptiveKeywords",
    "ExtensionNameValue": "Name! Value! MeasureClass DTim Index Description",
    "Wellbore": _POINTER,
    "Well": _POINTER,
    "ReferenceWellbore": _POINTER,
    "Fluid": _REFERENCE,
    "DisplacementFluid": _REFERENCE,
    "StringEquipment/Equipment": _REFERENCE,
    "Accessory/Equipment": _REFERENCE,
    "MdPrevShoe": _DEPTH,
    "MdHole": _DEPTH,
    "MdStringSet": _DEPTH,
    "MdInterval": _INTERVAL,
    "StringMdInterval": _INTERVAL,
    "SlurryPlacementInterval": _INTERVAL,
    "Tubular": f"{_OBJECT} MixedString NominalDiameter TubularOSDUIntegration TubularUmbilical* "
    "TypeTubularAssy! ValveFloat SourceNuclear DiaHoleAssy TubularComponent* Wellbore!",
    "TubularComponent": "Manufacturer NominalDiameter NominalWeight Supplier TensStrength "
    "TubularComponentOSDUIntegration TypeTubularComponent! Sequence! Description Id! Od! OdMx "
    "Len! LenJointAv NumJointStand WtPerLen Count Grade OdDrift TensYield TqYield StressFatigue "
    "LenFishneck IdFishneck OdFishneck Disp PresBurst PresCollapse ClassService WearWall "
    "ThickWall ConfigCon BendStiffness AxialStiffness TorsionalStiffness TypeMaterial DoglegMx "
    "Model NameTag* AreaNozzleFlow ExtensionNameValue* Connection*",
    "NameTag": "Name! NumberingScheme! Technology Location",
    "Connection": "Id Od Len TypeThread SizeThread TensYield TqYield Position "
    "CriticalCrossSection PresLeak TqMakeup ExtensionNameValue*",
    "DownholeComponent": f"{_OBJECT} StartDate EndDate WellHead BoreholeStringSet "
    "DownholeStringSet EquipmentSet PerforationSets Well!",
    "DownholeStringSet": "DownholeString!*",
    "DownholeString": "StringType! SubStringType Name StringInstallDate StringMdInterval "
    "AxisOffset ExtensionNameValue* ParentString StringEquipmentSet Accessories "
    "ReferenceWellbore!",
    "StringEquipmentSet": "StringEquipment!*",
    "Accessories": "Accessory!*",
    "StringEquipment": _ON_STRING,
    "Accessory": _ON_STRING,
    "EquipmentSet": "Equipment!*",
    "EquipmentSet/Equipment": "EquipmentName EquipmentType! Manufacturer Model CatalogId "
    "CatalogName BrandName ModelType Series IsSerialized SerialNumber PartNo SurfaceCondition "
    "Material Grade UnitWeight CoatingLinerApplied OutsideCoating InsideCoating UnitLength "
    "MajorOd MinorOd Od MaxOd MinOd MajorId MinorId Id MaxId MinId Drift NominalSize NameService "
    "Description DescriptionPermanent Remark ExtensionNameValue* Property*",
    "CementJob": f"{_OBJECT} JobType JobConfig NameCementedString NameWorkString OffshoreJob "
    "MdWater ReturnsToSeabed MdPrevShoe MdHole TvdPrevShoe MdStringSet TvdStringSet TypePlug "
    "NameCementString TypeSqueeze MdSqueeze ToolCompany TypeTool CoilTubing HoleConfig JobReport "
    "Wellbore! Design CementingFluid*",
    "JobReport": f"{_ANY_CEMENTING} DTimJobEnd DTimJobStart DTimPlugSet CementDrillOut "
    "DTimCementDrillOut DTimSqueeze DTimPipeRotStart DTimPipeRotEnd DTimRecipStart DTimRecipEnd "
    "DensMeasBy CementReportStage!*",
    "Design": f"{_ANY_CEMENTING} CementDesignStage!*",
    "CementDesignStage": _STAGE,
    "CementReportStage": f"{_STAGE} DTimMixStart DTimPumpStart DTimPumpEnd DTimDisplaceStart "
    "PresBreakDown FlowrateBreakDown FlowrateDisplaceAv FlowrateDisplaceMx PresSqueezeAv "
    "PresSqueezeEnd PresSqueezeHeld ETimMudCirculation PresSqueeze FlowrateSqueezeAv "
    "FlowrateSqueezeMx FlowrateEnd FlowratePumpStart FlowratePumpEnd VisFunnelMud PlugBumped "
    "SqueezeObtained PresPriorBump FloatHeld",
    "Step": "Fluid! RatioFluidExcess ETimPump RatePump VolPump StrokePump PresBack ETimShutdown "
    "Comments",
    "OriginalFluidLocation": _LOCATION,
    "EndingFluidLocation": _LOCATION,
    "CementingFluid": "ETimTransitions ETimZeroGel TypeFluid FluidIndex DescFluid Purpose "
    "ClassSlurryDryBlend SlurryPlacementInterval SourceWater VolWater VolCement RatioMixWater "
    "VolFluid ExcessPc VolYield Density SolidVolumeFraction VolPumped VolOther "
    "FluidRheologicalModel Viscosity Yp N K TypeBaseFluid DensBaseFluid DryBlendName "
    "DryBlendDescription MassDryBlend DensDryBlend MassSackDryBlend ETimThickening "
    "TempThickening DensAtPres VolReserved VolTotSlurry CementAdditive* Rheometer*",
    "CementAdditive": "NameAdd! TypeAdd FormAdd DensAdd Additive! ExtensionNameValue*",
}
OLDER = {
    "tubulars": "documentInfo tubular!*",
    "tubular": "nameWell! nameWellbore! name! typeTubularAssy! valveFloat sourceNuclear "
    "diaHoleAssy tubularComponent* commonData customData",
    "tubularComponent": "typeTubularComp! sequence! description id! od! odMx len! lenJointAv "
    "numJointStand wtPerLen grade odDrift tensYield tqYield stressFatig lenFishneck idFishneck "
    "odFishneck disp presBurst presCollapse classService wearWall thickWall configCon "
    "bendStiffness axialStiffness torsionalStiffness typeMaterial doglegMx vendor model nameTag* "
    "bitRecord areaNozzleFlow nozzle* connection* jar mwdTool motor stabilizer* bend* holeOpener "
    "rotarySteerableTool customData extensionAny extensionNameValue*",
    "connection": "id od len typeThread sizeThread tensYield tqYield position "
    "criticalCrossSection presLeak tqMakeup customData extensionAny extensionNameValue*",
    "extensionNameValue": "name! value! dataType! dTim md index measureClass description",
    "cementJobs": "documentInfo cementJob!*",
    "cementJob": "nameWell! nameWellbore! name! jobType jobConfig dTimJob nameCementedString "
    "holeConfig nameWorkString contractor cementEngr offshoreJob mdWater returnsToSeabed "
    "reciprocating woc mdPlugTop mdPlugBot mdHole mdShoe tvdShoe mdStringSet tvdStringSet "
    "cementStage* cementTest typePlug nameCementString dTimPlugSet cementDrillOut "
    "dTimCementDrillOut typeSqueeze mdSqueeze dTimSqueeze toolCompany typeTool dTimPipeRotStart "
    "dTimPipeRotEnd rpmPipe tqInitPipeRot tqPipeAv tqPipeMx dTimRecipStart dTimRecipEnd overPull "
    "slackOff rpmPipeRecip lenPipeRecipStroke coilTubing commonData customData",
    "cementStage": "numStage! typeStage! dTimMixStart dTimPumpStart dTimPumpEnd "
    "dTimDisplaceStart mdTop mdBottom volExcess flowrateDisplaceAv flowrateDisplaceMx "
    "presDisplace volReturns eTimMudCirculation flowrateMudCirc presMudCirc flowrateEnd "
    "cementingFluid afterFlowAnn squeezeObj squeezeObtained mdString mdTool mdCoilTbg volCsgIn "
    "volCsgOut presBackPressure flowratePumpStart flowratePumpEnd pillBelowPlug plugCatcher "
    "mdCircOut volCircPrior typeOriginalMud wtMud visFunnelMud pvMud ypMud gel10Sec gel10Min "
    "tempBHCT tempBHST volExcessMethod mixMethod densMeasBy annFlowAfter topPlug botPlug "
    "botPlugNumber plugBumped presPriorBump presBump presHeld floatHeld volMudLost fluidDisplace "
    "densDisplaceFluid volDisplaceFluid extensionNameValue*",
    "cementingFluid": "typeFluid fluidIndex descFluid purpose classSlurryDryBlend mdFluidTop "
    "mdFluidBottom sourceWater volWater volCement ratioMixWater volFluid cementPumpSchedule "
    "excessPc volYield density solidVolumeFraction volPumped volOther fluidRheologicalModel vis "
    "yp n k typeBaseFluid densBaseFluid dryBlendName dryBlendDescription massDryBlend "
    "densDryBlend massSackDryBlend cementAdditive* foamUsed eTimThickening densAtPres "
    "volReserved volTotSlurry",
    "cementPumpSchedule": "eTimPump ratePump volPump strokePump presBack eTimShutdown comments",
    "cementAdditive": "nameAdd! typeAdd formAdd densAdd typeConc concentration wtSack volSack "
    "additive! extensionNameValue*",
}
UIDS = {
    *("TubularComponent", "Connection", "NameTag", "DownholeString", "StringEquipment"),
    *("Accessory", "EquipmentSet/Equipment", "CementReportStage", "Step", "EndingFluidLocation"),
    "OriginalFluidLocation",
    *("CementingFluid", "CementAdditive", "tubular", "tubularComponent", "connection"),
    *("extensionNameValue", "cementJob", "cementStage", "cementAdditive"),
}
"""What must bear a uid; in 1.4.1.1 by the form in which it is sent to be stored."""
_WHOLE_OBJECTS = {"Tubular", "DownholeComponent", "CementJob"}


def faults(root: etree._Element) -> list[str]:
    """Return what is wrong with the structure of a document, in words; nothing is a good one."""
    known = OLDER if name(root)[0].islower() else NEWER
    wrong = []
    for element in root.iter(etree.Element):
        parent = element.getparent()
        above = "" if parent is None else name(parent)
        kind = f"{above}/{name(element)}"
        kind = kind if kind in known else name(element)
        if kind in known:
            wrong += _children(element, kind, known[kind].split())
        elif len(element):
            wrong.append(f"{kind} is not known")
        wrong += _marks(element, kind)
    return wrong


def _children(element: etree._Element, kind: str, parts: list[str]) -> list[str]:
    order = [part.rstrip("!*") for part in parts]
    many = {part.rstrip("!*") for part in parts if part.endswith("*")}
    must = {part.rstrip("!*") for part in parts if "!" in part}
    have = [name(child) for child in element]
    strange = [each for each in have if each not in order]
    places = [order.index(each) for each in have if each in order]
    wrong = [f"{kind} has {each}" for each in strange]
    wrong += [f"{kind} is out of order"] * (places != sorted(places))
    wrong += [f"{kind} lacks {each}" for each in sorted(must - set(have))]
    wrong += [f"{kind} repeats {each}" for each in set(have) - many if have.count(each) > 1]
    return wrong


def _marks(element: etree._Element, kind: str) -> list[str]:
    wanted = {"uid"} if kind in UIDS else set()
    if kind in _WHOLE_OBJECTS and element.getparent() is None:
        wanted = {"uuid", "schemaVersion"}
    if kind in ("tubular", "cementJob"):
        wanted = {"uid", "uidWell", "uidWellbore"}
    if kind in ("tubulars", "cementJobs"):
        wanted = {"version"}
    have = set(element.attrib) - {"uom"}
    return [] if have == wanted else [f"{kind} has the attributes {sorted(have)}"]
